using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Portal.Accounts.Mail;
using Tankside.Portal.Flags.FirstAidTexts;
using Tankside.Portal.Places;
using Tankside.Storage;
using Tankside.Storage.People;

namespace Tankside.Portal.Flags;

/// <summary>A teacher of the tank's school, as the coordinator reaches them.</summary>
public sealed record FirstAidTeacher(Guid PersonId, string Name, string? Email, string? PhoneNumber, string Language)
{
    /// <summary>"tel:+15550100"; null without a number.</summary>
    public string? CallLink => Digits is { } number ? $"tel:{number}" : null;

    /// <summary>Opens the telephone's own message with the text in it; null without a number.</summary>
    public string? MessageLink(string text) => Digits is { } number ? $"sms:{number}?body={Uri.EscapeDataString(text)}" : null;

    private string? Digits => PhoneNumber is null || !PhoneNumber.Any(char.IsAsciiDigit) ? null
        : string.Concat(PhoneNumber.Where((c, i) => char.IsAsciiDigit(c) || (c == '+' && PhoneNumber[..i].Trim().Length == 0)));
}

/// <summary>First aid for one flag at one moment, from one person: composes it in any language, finds its readers, writes its letters.</summary>
internal sealed class FirstAidDesk(Flag flag, Programme programme, OwnTexts texts, TankPlace? place, int fish, Person sender, DateTime now, Uri publicUrl)
{
    /// <summary>What the keys of these letters begin with.</summary>
    public const string KeyStart = "first-aid ";

    public async Task<FirstAidPreview> PreviewAsync(HatcheryDb db, string language, CancellationToken cancel) =>
        new(Card(language), Text(language), await TeachersAsync(db, cancel));

    public async Task<IReadOnlyList<FirstAidTeacher>> TeachersAsync(HatcheryDb db, CancellationToken cancel)
    {
        if (place is null)
        {
            return [];
        }

        return await (
            from person in db.Users.AsNoTracking()
            where db.Memberships.Any(m => m.PersonId == person.Id && m.ProgrammeId == flag.ProgrammeId
                && m.Role == Role.Teacher && m.SchoolId == place.School.Id)
            orderby person.Name, person.Id
            select new FirstAidTeacher(person.Id, person.Name, person.Email, person.PhoneNumber, person.Language)).ToListAsync(cancel);
    }

    /// <summary>
    /// Adds the letters and the line of history, and turns the flag. A teacher's quiet hours hold for first aid too: at night it is the telephone.
    /// </summary>
    public async Task WriteAsync(HatcheryDb db, Outbox outbox, IReadOnlyList<FirstAidTeacher> teachers, CancellationToken cancel)
    {
        var texts = teachers.Select(t => t.Language).Append(sender.Language).Distinct().ToDictionary(l => l, Text);
        foreach (var teacher in teachers)
        {
            var (key, text) = ($"{KeyStart}{flag.Id} {flag.Turn} {teacher.PersonId}", texts[teacher.Language]);
            await outbox.WriteAsync(db, new NewLetter(key, flag.ProgrammeId, teacher.PersonId, teacher.Email!, text.Subject, text.Full), cancel);
        }

        flag.Turn++;
        flag.UpdatedAt = now;
        flag.PromiseFellDue = false;
        db.FlagEvents.Add(new FlagEvent
        {
            FlagId = flag.Id,
            At = now,
            By = sender.Id,
            Deed = FlagDeed.FirstAidSent,
            Note = texts[sender.Language].FirstLine,
            Urgency = flag.Urgency,
        });
    }

    private FirstAidCard Card(string language) =>
        FirstAid.For(flag.AsFinding(), place is null ? new AidTank { Texts = texts } : AidTank.Of(place), language);

    private FirstAidText Text(string language) =>
        FirstAidText.Compose(Card(language), flag.Kind, place, Reason(language), new AidSender(ReadingPage, AnswerTo), language);

    /// <summary>A shared cause has no school of its own; its sentence names none.</summary>
    private string Reason(string language) => Reasons.Of(
        flag.AsFinding(), place?.Calendar ?? new SchoolCalendar(ProgrammeClock.Of(programme.TimeZone), new TimeOnly(8, 0), new TimeOnly(15, 15), []),
        programme.ScreenUnit, fish, now, language, place?.OwnTexts ?? texts);

    private Uri ReadingPage => new(publicUrl, place is null ? "" : $"tanks/{place.Tank.Code}/reading");

    private string AnswerTo => (sender.PhoneNumber ?? sender.Email) is { } reach ? $"{sender.Name}, {reach}" : sender.Name;
}
