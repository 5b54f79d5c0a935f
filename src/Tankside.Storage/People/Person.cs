using Microsoft.AspNetCore.Identity;
using Tankside.Hatchery.People;

namespace Tankside.Storage.People;

/// <summary>An adult with an account. Children have none, ever.</summary>
public sealed class Person : IdentityUser<Guid>
{
    public required string Name { get; set; }

    /// <summary>Language tag for mails and screens, "en" or "es".</summary>
    public string Language { get; set; } = "en";

    /// <summary>Local hours in which no mail comes, except what was asked for just now; null for none.</summary>
    public TimeOnly? QuietFrom { get; set; }

    public TimeOnly? QuietTo { get; set; }

    public bool WantsDigest { get; set; } = true;

    /// <summary>A mail at once when a tank cannot wait.</summary>
    public bool WantsUrgent { get; set; } = true;

    /// <summary>The programme that somebody in several chose to work in last.</summary>
    public Guid? WorksIn { get; set; }

    /// <summary>They have left the announcements, by the link in one or on their own page.</summary>
    public bool WithoutAnnouncements { get; set; }

    /// <summary>They have left the reminders of reports.</summary>
    public bool WithoutReminders { get; set; }

    /// <summary>A made-up person of the demo season, whose password is printed: never let in outside Development.</summary>
    public bool IsDemo { get; set; }

    public bool Wants(MailKind kind) => kind switch
    {
        MailKind.Announcement => !WithoutAnnouncements,
        MailKind.Reminder => !WithoutReminders,
        MailKind.Morning => WantsDigest,
        MailKind.Urgent => WantsUrgent,
    };

    public void Choose(MailKind kind, bool wanted)
    {
        switch (kind)
        {
            case MailKind.Announcement:
                WithoutAnnouncements = !wanted;
                break;
            case MailKind.Reminder:
                WithoutReminders = !wanted;
                break;
            case MailKind.Morning:
                WantsDigest = wanted;
                break;
            case MailKind.Urgent:
                WantsUrgent = wanted;
                break;
        }
    }
}
