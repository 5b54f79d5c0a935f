using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts.Mail;
using Tankside.Storage;

namespace Tankside.Portal.Flags.Sweeps;

/// <summary>A letter that waited until its mark was over asks nobody any more.</summary>
internal sealed class SweepLetterWords(IDbContextFactory<HatcheryDb> databases) : IFreshWords
{
    /// <summary>What the keys of these letters begin with; the mark's id follows.</summary>
    public const string Kind = "sweep ";

    public bool Knows(OutgoingLetter letter) => letter.Key.StartsWith(Kind, StringComparison.Ordinal);

    public async Task<FreshWords> WordAsync(OutgoingLetter letter, CancellationToken cancel)
    {
        var sweepId = Guid.Parse(letter.Key.Split(' ')[1]);
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await db.AreaSweeps.AnyAsync(s => s.Id == sweepId && s.EndedAt == null, cancel)
            ? new FreshWords.Say(letter.Subject, letter.Text)
            : new FreshWords.NotNeeded("the area is not marked any more");
    }
}
