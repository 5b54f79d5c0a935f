using Microsoft.EntityFrameworkCore;
using MimeKit;
using Tankside.Hatchery.People;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Accounts.Mail;

/// <summary>What a report changed.</summary>
public enum ReportTaken
{
    /// <summary>It matches no letter of ours; nothing was changed.</summary>
    NotOurs,

    /// <summary>The address takes no mail from now on.</summary>
    RefusedForGood,

    /// <summary>This letter does not arrive; the address is not to blame.</summary>
    NotDelivered,

    /// <summary>The servers go on trying; nothing was changed.</summary>
    Delayed,

    Delivered,
}

/// <summary>Marks letters and addresses by the reports that mail servers send back later. The same report twice changes nothing more.</summary>
public sealed class TakeReports(IDbContextFactory<HatcheryDb> databases, TimeProvider time)
{
    private const int Tries = 3;

    /// <summary>Letters to a person that are looked through for the address; an older one went to an address they have given up.</summary>
    private const int LooksBack = 5;

    /// <summary>One for each recipient that the report speaks of; none when the message is no report.</summary>
    public async Task<IReadOnlyList<(ReportedDelivery Report, ReportTaken Taken)>> HandleAsync(MimeMessage message, CancellationToken cancel)
    {
        var taken = new List<(ReportedDelivery, ReportTaken)>();
        foreach (var report in DeliveryReports.Read(message))
        {
            taken.Add((report, await TakeAsync(report, cancel)));
        }

        return taken;
    }

    private async Task<ReportTaken> TakeAsync(ReportedDelivery report, CancellationToken cancel)
    {
        for (var attempt = 1; ; attempt++)
        {
            try
            {
                return await TryAsync(report, cancel);
            }
            catch (DbUpdateException) when (attempt < Tries)
            {
                // The portal touched the letter or the address at the same moment.
            }
        }
    }

    private async Task<ReportTaken> TryAsync(ReportedDelivery report, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (await LetterAsync(db, report, cancel) is not { } letter)
        {
            return ReportTaken.NotOurs;
        }

        var taken = report switch
        {
            { Action: "delivered" } => ReportTaken.Delivered,
            { Action: "failed", Status.BlamesAddress: true } => ReportTaken.RefusedForGood,
            { Action: "failed" } => ReportTaken.NotDelivered,
            _ => ReportTaken.Delayed,
        };
        var code = report.Status.ToString();
        switch (taken)
        {
            case ReportTaken.RefusedForGood:
                (letter.State, letter.Trouble) = (LetterState.Bounced, LetterTroubles.Bounced(code));
                await RefusedAddresses.MarkAsync(db, letter.To, code, Instants.ToMillisecond(time.GetUtcNow().UtcDateTime));
                break;
            case ReportTaken.NotDelivered:
                (letter.State, letter.Trouble) = (LetterState.GivenUp, LetterTroubles.NotDelivered(code));
                break;
            case ReportTaken.Delivered:
                await RefusedAddresses.ClearAsync(db, letter.To);
                break;
        }

        await db.SaveChangesAsync(cancel);
        return taken;
    }

    /// <summary>
    /// By its message id; without one, the last that went to the address. A report about a letter that did not go from here, or that is on its way
    /// again, changes nothing.
    /// </summary>
    private static async Task<OutgoingLetter?> LetterAsync(HatcheryDb db, ReportedDelivery report, CancellationToken cancel)
    {
        var went = db.OutgoingLetters.Where(l => l.State == LetterState.Sent || l.State == LetterState.Unsure || l.State == LetterState.Bounced);
        if (report.LetterId is { } id)
        {
            return await went.SingleOrDefaultAsync(l => l.Id == id, cancel);
        }

        if (report.Address is not { } address)
        {
            return null;
        }

        var key = RefusedAddress.Key(address);
        var last = await went.Where(l => l.To == address || db.Users.Any(p => p.Id == l.PersonId && p.NormalizedEmail == key))
            .OrderByDescending(l => l.SentAt).ThenByDescending(l => l.Id).Take(LooksBack).ToListAsync(cancel);
        return last.Find(l => l.To.Equals(address, StringComparison.OrdinalIgnoreCase));
    }
}
