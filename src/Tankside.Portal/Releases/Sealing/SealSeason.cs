using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Accounts;
using Tankside.Storage;
using Tankside.Storage.Seasons;

namespace Tankside.Portal.Releases.Sealing;

public sealed class SealForm
{
    public Guid Id { get; set; }

    /// <summary>The checksum that the page showed; another account by now is shown before it is closed.</summary>
    public string? AsShown { get; set; }

    /// <summary>Why it is opened again.</summary>
    public string? Why { get; set; }
}

/// <summary>Closes a season's account as it was shown, and opens it again for a reason.</summary>
public sealed class SealSeason(IDbContextFactory<HatcheryDb> databases, TimeProvider time)
{
    public Task<Notice?> CloseAsync(CurrentUser user, string season, SealForm form, Action<string, string> refuse, CancellationToken cancel) =>
        InTurn.SaveAsync(() => TryCloseAsync(user, season, form, refuse, cancel), refuse);

    public Task<Notice?> OpenAsync(CurrentUser user, string season, SealForm form, Action<string, string> refuse, CancellationToken cancel) =>
        InTurn.SaveAsync(() => TryOpenAsync(user, season, form, refuse, cancel), refuse);

    private async Task<Notice?> TryCloseAsync(CurrentUser user, string name, SealForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var programme = await db.Programmes.AsNoTracking().SingleAsync(p => p.Id == user.ProgrammeId, cancel);
        var season = await db.Seasons.SingleAsync(s => s.ProgrammeId == user.ProgrammeId && s.Name == name, cancel);
        await using var turn = await SeasonTurn.AloneAsync(db, season.Id, cancel);
        if (await Seals.IsClosedAsync(db, season.Id, cancel))
        {
            return new Notice(true, $"Season {name} is sealed already.");
        }

        var totals = await SeasonFold.LoadAsync(db, programme, season, null, cancel);
        var against = SealRules.Check(totals).ToList();
        foreach (var why in against)
        {
            refuse("", SealWords.Word(why, totals));
        }

        var checksum = SealedAccount.Checksum(totals);
        if (against.Count == 0 && checksum != form.AsShown)
        {
            refuse("", "The ledger changed while you looked. Nothing is sealed yet: look at the account once more, then seal it.");
            return null;
        }

        if (against.Count > 0)
        {
            return null;
        }

        db.SeasonSeals.Add(new SeasonSeal
        {
            Id = form.Id,
            SeasonId = season.Id,
            SealedAt = Shell.Instants.ToMillisecond(time.GetUtcNow().UtcDateTime),
            SealedBy = user.PersonId,
            Checksum = checksum,
            Account = SealedAccount.Pack(totals),
        });
        await db.SaveChangesAsync(cancel);
        await turn.CommitAsync(cancel);
        return new Notice(true, $"Season {name} is sealed. Its files stay as they are now.");
    }

    private async Task<Notice?> TryOpenAsync(CurrentUser user, string name, SealForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        var typed = new TypedFields(refuse);
        var why = typed.Text(nameof(form.Why), form.Why);
        if (why is null)
        {
            typed.Refuse(nameof(form.Why), "Say why it is opened again. The reason stays beside the seal for whoever reads it later.");
        }

        await using var db = await databases.CreateDbContextAsync(cancel);
        var season = await db.Seasons.SingleAsync(s => s.ProgrammeId == user.ProgrammeId && s.Name == name, cancel);
        var seal = await db.SeasonSeals.SingleOrDefaultAsync(s => s.SeasonId == season.Id && s.ReopenedAt == null, cancel);
        if (seal is null)
        {
            return new Notice(true, $"Season {name} is open.");
        }

        if (!typed.AllGood)
        {
            return null;
        }

        (seal.ReopenedAt, seal.ReopenedBy, seal.ReopenedBecause) = (Shell.Instants.ToMillisecond(time.GetUtcNow().UtcDateTime), user.PersonId, why);
        await db.SaveChangesAsync(cancel);
        return new Notice(true, $"Season {name} is open again. Its files follow the ledger until it is sealed anew.");
    }
}
