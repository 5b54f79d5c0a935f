using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Digests.Announcements;

/// <summary>A letter as one reader would get it.</summary>
public sealed record ShownLetter(string Name, string Language, bool IsTheirs, string Subject, string Text);

/// <summary>An announcement before it is sent.</summary>
/// <param name="At">When it goes; null for as soon as the grace is over.</param>
/// <param name="Gaps">Readers for whom a placeholder has no value, with what will stand there.</param>
/// <param name="Mark">Stands for the words, the readers and the time; see <see cref="AnnouncementForm.Seen"/>.</param>
public sealed record AnnouncementLook(
    Wording Wording, ChosenAudience Chosen, DateTime? At, IReadOnlyDictionary<Guid, ReaderFacts> Facts, Programme Programme,
    IReadOnlyList<(string Name, string Gaps)> Gaps, string Mark)
{
    public const string TimeFormat = "yyyy-MM-dd'T'HH:mm";

    public ProgrammeClock Clock { get; } = ProgrammeClock.Of(Programme.TimeZone);

    /// <summary>The letters of the two readers in both languages; without a choice the first of each language.</summary>
    public IReadOnlyList<ShownLetter> Letters(AnnouncementForm form)
    {
        var shown = new[] { Reader(form.First) ?? First("en"), Reader(form.Second) ?? First("es") }.OfType<AudienceMember>().ToList();
        if (shown is [var one, var other] && one == other)
        {
            shown[1] = Chosen.WithLetter.FirstOrDefault(m => m != one) ?? one;
        }

        return [.. shown.Distinct().SelectMany(m => new[] { "en", "es" }.Select(language => Show(m, language)))];
    }

    private AudienceMember? Reader(string? id) => Chosen.WithLetter.FirstOrDefault(m => m.Person.Id.ToString() == id);

    private AudienceMember? First(string language) => Chosen.WithLetter.FirstOrDefault(m => m.Person.Language == language) ?? (Chosen.WithLetter.Count > 0 ? Chosen.WithLetter[0] : null);

    private ShownLetter Show(AudienceMember member, string language)
    {
        var (subject, text) = Wording.For(Facts[member.Person.Id], language, Programme.Name);
        return new ShownLetter(member.Person.Name, language, member.Person.Language == language, subject, text);
    }
}

/// <summary>Reads what was written, finds its readers and shows what each would get. Nothing is kept.</summary>
public sealed class LookAtAnnouncement(IDbContextFactory<HatcheryDb> databases, Audiences audiences, FactsOfReaders facts, TimeProvider time)
{
    /// <summary>Further ahead lies a slip in the year.</summary>
    private static readonly TimeSpan Longest = TimeSpan.FromDays(300);

    /// <summary>Null when something was refused and a field says why.</summary>
    public async Task<AnnouncementLook?> HandleAsync(CurrentUser user, AnnouncementForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var programme = await db.Programmes.AsNoTracking().SingleAsync(p => p.Id == user.ProgrammeId, cancel);
        var wording = WordingRules.Read(form.SubjectEn, form.TextEn, form.SubjectEs, form.TextEs, refuse);
        var chosen = await audiences.FindAsync(user.ProgrammeId, form, refuse, cancel);
        var now = Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);
        if (!TryRead(form.At, ProgrammeClock.Of(programme.TimeZone), now, refuse, out var at) || wording is null || chosen is null)
        {
            return null;
        }

        var known = await facts.LoadAsync(db, user.ProgrammeId, user.PersonId, [.. chosen.WithLetter.Select(m => m.Person.Id)], now, cancel);
        return new AnnouncementLook(wording, chosen, at, known, programme, Gaps(wording, chosen, known), Mark(wording, chosen, form.At));
    }

    private static bool TryRead(string? typed, ProgrammeClock clock, DateTime now, Action<string, string> refuse, out DateTime? at)
    {
        at = null;
        if (string.IsNullOrWhiteSpace(typed))
        {
            return true;
        }

        string[] formats = [AnnouncementLook.TimeFormat, AnnouncementLook.TimeFormat + ":ss", "yyyy-MM-dd HH:mm"];
        if (!DateTime.TryParseExact(typed.Trim(), formats, CultureInfo.InvariantCulture, DateTimeStyles.None, out var local) || local.Year is < 2000 or > 2100)
        {
            refuse(nameof(AnnouncementForm.At), "Give day and time, such as 2027-02-03 17:30, or leave it empty.");
            return false;
        }

        at = clock.Utc(DateOnly.FromDateTime(local), TimeOnly.FromDateTime(local));
        if (at <= now || at > now + Longest)
        {
            refuse(nameof(AnnouncementForm.At), at <= now ? "That time is over. Leave it empty to send now." : $"That is more than {Longest.TotalDays:0} days ahead. Please look at the date.");
            return false;
        }

        return true;
    }

    private static IReadOnlyList<(string Name, string Gaps)> Gaps(Wording wording, ChosenAudience chosen, IReadOnlyDictionary<Guid, ReaderFacts> facts)
    {
        var used = wording.Placeholders;
        return
        [
            .. from member in chosen.WithLetter
               let language = wording.Has(member.Person.Language) ? member.Person.Language : member.Person.Language == "es" ? "en" : "es"
               let missing = used.Where(p => facts[member.Person.Id].Value(p, language) is null).ToList()
               where missing.Count > 0
               select (member.Person.Name, string.Join("; ", missing.Select(p => $"for {p.Typed} stands “{p.Missing(language)}”"))),
        ];
    }

    private static string Mark(Wording wording, ChosenAudience chosen, string? at) =>
        Secrets.Hash(string.Join('\u001f', [wording.SubjectEn, wording.TextEn, wording.SubjectEs, wording.TextEs, at?.Trim() ?? "", .. chosen.WithLetter.Select(m => m.Person.Id.ToString()).Order(StringComparer.Ordinal)]));
}
