using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts.Mail;
using Tankside.Portal.Releases.Due;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Digests;

/// <summary>Words a reminder when it goes: a report that was sent meanwhile is left out, and with none left it is not sent.</summary>
internal sealed class ReminderWords(IDbContextFactory<HatcheryDb> databases, TanksideOptions options, TimeProvider time) : IFreshWords
{
    public bool Knows(OutgoingLetter letter) => ReminderKey.Read(letter.Key) is not null;

    public MailKind? Kind => MailKind.Reminder;

    public async Task<FreshWords> WordAsync(OutgoingLetter letter, CancellationToken cancel)
    {
        var key = ReminderKey.Read(letter.Key)!;
        await using var db = await databases.CreateDbContextAsync(cancel);
        var due = await ReportsDue.LoadAsync(db, letter.ProgrammeId, time, cancel);
        var open = due.Open.Where(r => r.Permit.Id == key.Permit && r.DueOn == key.DueOn).ToList();
        if (open.Count == 0)
        {
            return new FreshWords.NotNeeded("the report was sent.");
        }

        var (subject, text) = ReminderTexts.Of(open, due.Season.Today, due.Season.Programme.Name, options.PublicUrl);
        return new FreshWords.Say(subject, text);
    }
}
