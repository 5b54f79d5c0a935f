using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell;
using Tankside.Storage;
using Tankside.Storage.People;

namespace Tankside.Portal.People;

public sealed class MyForm
{
    public string? Name { get; set; }

    public string? Phone { get; set; }

    public string? Language { get; set; }

    public bool WantsAnnouncements { get; set; }

    public bool WantsReminders { get; set; }

    public bool WantsDigest { get; set; }

    public bool WantsUrgent { get; set; }

    public string? QuietFrom { get; set; }

    public string? QuietTo { get; set; }

    public static MyForm Of(Person person) => new()
    {
        Name = person.Name,
        Phone = person.PhoneNumber,
        Language = person.Language,
        WantsAnnouncements = !person.WithoutAnnouncements,
        WantsReminders = !person.WithoutReminders,
        WantsDigest = person.WantsDigest,
        WantsUrgent = person.WantsUrgent,
        QuietFrom = EditMe.Text(person.QuietFrom),
        QuietTo = EditMe.Text(person.QuietTo),
    };
}

/// <summary>What people say about themselves: name, phone, language, and when mails may come. The lead also sets the programme's hour.</summary>
public sealed class EditMe(IDbContextFactory<HatcheryDb> databases)
{
    public const int LongestName = 100, LongestPhone = 40;

    public static IReadOnlyDictionary<string, string> Languages => Say.Languages;

    public async Task<(Person Person, Programme Programme)> LoadAsync(CurrentUser user, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return (
            await db.Users.AsNoTracking().SingleAsync(p => p.Id == user.PersonId, cancel),
            await db.Programmes.AsNoTracking().SingleAsync(p => p.Id == user.ProgrammeId, cancel));
    }

    /// <summary>What to tell; null when something was refused and the field says why.</summary>
    public async Task<Notice?> SaveAsync(CurrentUser user, MyForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        var refused = false;
        void Refuse(string field, string why)
        {
            refused = true;
            refuse(field, why);
        }

        var name = form.Name?.Trim() is { Length: > 0 and <= LongestName } given ? given : null;
        if (name is null)
        {
            Refuse(nameof(form.Name), "Give the name that others know you by, 100 characters at most.");
        }

        var phone = string.IsNullOrWhiteSpace(form.Phone) ? null : form.Phone.Trim();
        if (phone is not null && (phone.Length > LongestPhone || !phone.Any(char.IsAsciiDigit)))
        {
            Refuse(nameof(form.Phone), "Give a number that can be rung, such as 555 0100, or leave it empty.");
        }

        if (form.Language is null || !Languages.ContainsKey(form.Language))
        {
            Refuse(nameof(form.Language), "Choose one of the languages.");
        }

        var (from, to) = Quiet(form, Refuse);
        if (refused)
        {
            return null;
        }

        await using var db = await databases.CreateDbContextAsync(cancel);
        var me = await db.Users.SingleAsync(p => p.Id == user.PersonId, cancel);
        (me.Name, me.PhoneNumber, me.Language, me.QuietFrom, me.QuietTo) = (name!, phone, form.Language!, from, to);
        me.WithoutAnnouncements = !form.WantsAnnouncements;
        if (user.Is(Role.Coordinator, Role.ProgrammeLead))
        {
            (me.WantsDigest, me.WantsUrgent, me.WithoutReminders) = (form.WantsDigest, form.WantsUrgent, !form.WantsReminders);
        }

        await db.SaveChangesAsync(cancel);
        return new Notice(true, "Saved.");
    }

    /// <summary>Sets the local time of the programme's morning mail.</summary>
    public async Task<Notice> SetHourAsync(CurrentUser user, string? typed, CancellationToken cancel)
    {
        if (Time(typed) is not { } at)
        {
            return new Notice(false, "The hour was not changed: give a time of day, such as 06:30.");
        }

        await using var db = await databases.CreateDbContextAsync(cancel);
        var programme = await db.Programmes.SingleAsync(p => p.Id == user.ProgrammeId, cancel);
        programme.DigestAt = at;
        try
        {
            await db.SaveChangesAsync(cancel);
        }
        catch (DbUpdateConcurrencyException)
        {
            return new Notice(false, "Somebody changed the programme at this moment. The hour was not changed; please send it once more.");
        }

        return new Notice(true, $"The morning mail goes out at {Text(at)}, from tomorrow on if today's is sent.");
    }

    internal static string? Text(TimeOnly? time) => time?.ToString("HH:mm", CultureInfo.InvariantCulture);

    private static (TimeOnly? From, TimeOnly? To) Quiet(MyForm form, Action<string, string> refuse)
    {
        if (string.IsNullOrWhiteSpace(form.QuietFrom) && string.IsNullOrWhiteSpace(form.QuietTo))
        {
            return (null, null);
        }

        var (from, to) = (Time(form.QuietFrom), Time(form.QuietTo));
        if (from is null)
        {
            refuse(nameof(form.QuietFrom), "Give a time of day, such as 21:00, or leave both empty.");
        }

        if (to is null)
        {
            refuse(nameof(form.QuietTo), "Give a time of day, such as 06:30, or leave both empty.");
        }
        else if (from == to)
        {
            refuse(nameof(form.QuietTo), "Beginning and end are the same. Leave both empty for no quiet hours.");
        }

        return (from, to);
    }

    private static TimeOnly? Time(string? typed) => TimeOnly.TryParse(typed, CultureInfo.InvariantCulture, out var time) ? time : null;
}
