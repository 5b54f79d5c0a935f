using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Accounts;
using Tankside.Portal.Releases.Sealing;
using Tankside.Portal.Shell;
using Tankside.Storage;
using Tankside.Storage.Seasons;

namespace Tankside.Portal.Releases.Ledger;

/// <summary>What a person types for one line.</summary>
public class LineForm
{
    /// <summary>Made when the page is shown, so that the form sent twice is one line.</summary>
    public Guid Id { get; set; }

    public string? Kind { get; set; }

    public string? Count { get; set; }

    public bool About { get; set; }

    public string? CountedBy { get; set; }

    public string? Day { get; set; }

    public string? Time { get; set; }

    public string? Note { get; set; }
}

/// <summary>Adds a line of one number: a loss, put down, sampled, or the living counted.</summary>
public sealed class EnterLine(IDbContextFactory<HatcheryDb> databases, TimeProvider time, Say say)
{
    public Task<Notice?> HandleAsync(CurrentUser user, string code, LineForm form, Action<string, string> refuse, CancellationToken cancel) =>
        InTurn.SaveAsync(() => TryAsync(user, code, form, refuse, cancel), refuse);

    private async Task<Notice?> TryAsync(CurrentUser user, string code, LineForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var season = await SeasonAtHand.LoadAsync(db, user.ProgrammeId, time, cancel);
        var tank = await TanksInReach.Of(db, user).SingleAsync(t => t.Code == code, cancel);
        if (await db.Ledger.AnyAsync(e => e.TankId == tank.Id && e.SenderId == form.Id, cancel))
        {
            return SentBefore;
        }

        await using var turn = await SeasonTurn.ShareAsync(db, season.Season!.Id, cancel);
        if (await Seals.IsClosedAsync(db, season.Season!.Id, cancel))
        {
            refuse("", Seals.Closed);
            return null;
        }

        if (Read(form, season, tank, user, refuse) is not { } line)
        {
            return null;
        }

        db.Ledger.Add(line);
        await db.SaveChangesAsync(cancel);
        await turn.CommitAsync(cancel);
        return new Notice(true, await ToldAsync(db, line, tank, cancel));
    }

    public static Notice SentBefore { get; } = new(true, "This was entered already; it stands in the ledger once.");

    private LedgerEntry? Read(LineForm form, SeasonAtHand season, Tank tank, CurrentUser user, Action<string, string> refuse)
    {
        var typed = new TypedFields(refuse, say);
        var kind = typed.Choice<LedgerKind>(nameof(form.Kind), form.Kind, say["Choose what happened."]);
        var count = typed.Count(nameof(form.Count), form.Count, say["Type how many."]);
        var method = LedgerWords.Method(typed, nameof(form.CountedBy), form.CountedBy);
        var at = typed.Moment(nameof(form.Day), form.Day, nameof(form.Time), form.Time, season.Clock);
        var note = typed.Text(nameof(form.Note), form.Note);
        if (typed.AllGood && !LedgerRules.EnteredAlone.Contains(kind))
        {
            typed.Refuse(nameof(form.Kind), say["Eggs received, moves and releases have their own forms."]);
        }

        if (typed.AllGood)
        {
            foreach (var why in LedgerRules.Check(kind, count, at, season.Now, season.Starts, tank.ClosedAt is not null))
            {
                typed.Refuse(FieldOf(why), LedgerWords.Word(why, season, say));
            }
        }

        return !typed.AllGood ? null : new LedgerEntry
        {
            SenderId = form.Id,
            SeasonId = season.Season!.Id,
            TankId = tank.Id,
            Kind = kind,
            Count = count,
            About = form.About,
            CountedBy = method,
            At = season.Exactly(at),
            EnteredAt = season.Now,
            EnteredBy = user.PersonId,
            Note = note,
        };
    }

    private static string FieldOf(LineRefusal why) => why switch
    {
        LineRefusal.InTheFuture or LineRefusal.BeforeTheSeason => nameof(LineForm.Day),
        LineRefusal.TankClosed => nameof(LineForm.Kind),
        _ => nameof(LineForm.Count),
    };

    private async Task<string> ToldAsync(HatcheryDb db, LedgerEntry line, Tank tank, CancellationToken cancel)
    {
        var balance = TankBalance.Of(await TankLedger.EntriesAsync(db, tank.Id, line.SeasonId, cancel), tank.ClosedAt is not null);
        var entered = say.Of("Entered: {0}, {1}.", say[line.Kind.Word()].ToLowerInvariant(), Figures.Of(line.Count));
        var holds = say.Of(
            balance.Unaccounted == 1 ? "{0} now holds {1}, and {2} is unaccounted for." : "{0} now holds {1}, and {2} are unaccounted for.",
            tank.Code, Figures.Of(balance.StillInTank), Figures.Of(balance.Unaccounted));
        return $"{entered} {holds}";
    }
}
