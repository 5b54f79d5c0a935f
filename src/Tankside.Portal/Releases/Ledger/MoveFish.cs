using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Accounts;
using Tankside.Portal.Releases.Sealing;
using Tankside.Portal.Shell;
using Tankside.Storage;
using Tankside.Storage.Seasons;

namespace Tankside.Portal.Releases.Ledger;

/// <summary>What a person types when fish move to another tank.</summary>
public sealed class MoveForm : LineForm
{
    public string? To { get; set; }

    /// <summary>Two rooms become one: the tank that they came from is closed in the same act.</summary>
    public bool EmptiesTank { get; set; }
}

/// <summary>Moves eggs or fish between two tanks: both halves are written in one act, so that none is lost or made on the way.</summary>
public sealed class MoveFish(IDbContextFactory<HatcheryDb> databases, TimeProvider time, Say say)
{
    public Task<Notice?> HandleAsync(CurrentUser user, string code, MoveForm form, Action<string, string> refuse, CancellationToken cancel) =>
        InTurn.SaveAsync(() => TryAsync(user, code, form, refuse, cancel), refuse);

    private async Task<Notice?> TryAsync(CurrentUser user, string code, MoveForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var season = await SeasonAtHand.LoadAsync(db, user.ProgrammeId, time, cancel);
        var from = await TanksInReach.Of(db, user).SingleAsync(t => t.Code == code, cancel);
        if (await db.Ledger.AnyAsync(e => e.TankId == from.Id && e.SenderId == form.Id, cancel))
        {
            return EnterLine.SentBefore;
        }

        await using var turn = await SeasonTurn.ShareAsync(db, season.Season!.Id, cancel);
        if (await Seals.IsClosedAsync(db, season.Season!.Id, cancel))
        {
            refuse("", Seals.Closed);
            return null;
        }

        var typed = new TypedFields(refuse, say);
        var to = await TanksInReach.Of(db, user).SingleOrDefaultAsync(t => t.Code == form.To, cancel);
        if (to is null)
        {
            typed.Refuse(nameof(form.To), say["Choose the tank that they moved to."]);
        }

        var count = typed.Count(nameof(form.Count), form.Count, say["Type how many moved."]);
        var method = LedgerWords.Method(typed, nameof(form.CountedBy), form.CountedBy);
        var at = typed.Moment(nameof(form.Day), form.Day, nameof(form.Time), form.Time, season.Clock);
        var note = typed.Text(nameof(form.Note), form.Note);
        if (typed.AllGood)
        {
            var lots = await LotsInTanks.LoadAsync(db, season.Season!.Id, cancel);
            var sameLot = lots.HeldBy(to!.Id) is not { } there || there.Id == lots.Of(from.Id)?.Id;
            foreach (var why in LedgerRules.Check(LedgerKind.TransferredIn, count, at, season.Now, season.Starts, to.ClosedAt is not null)
                .Concat(LedgerRules.CheckMove(from.Id, to.Id, sameLot, note is not null)))
            {
                typed.Refuse(FieldOf(why), LedgerWords.Word(why, season, say));
            }
        }

        if (!typed.AllGood)
        {
            return null;
        }

        from.ClosedAt = form.EmptiesTank ? season.Now : from.ClosedAt;
        db.Ledger.AddRange(Half(from.Id, LedgerKind.TransferredOut), Half(to!.Id, LedgerKind.TransferredIn));
        await db.SaveChangesAsync(cancel);
        await turn.CommitAsync(cancel);
        return new Notice(true, say.Of("Entered: {0} moved from {1} to {2}. Both accounts have the line.", Figures.Of(count), from.Code, to.Code)
            + (form.EmptiesTank ? " " + say.Of("{0} is closed; what its ledger still left is unaccounted for.", from.Code) : ""));

        LedgerEntry Half(Guid tankId, LedgerKind kind) => new()
        {
            SenderId = form.Id,
            TransferId = form.Id,
            SeasonId = season.Season!.Id,
            TankId = tankId,
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
        LineRefusal.InTheFuture or LineRefusal.BeforeTheSeason => nameof(MoveForm.Day),
        LineRefusal.TankClosed or LineRefusal.SameTank => nameof(MoveForm.To),
        LineRefusal.OtherLot => nameof(MoveForm.Note),
        _ => nameof(MoveForm.Count),
    };

    /// <summary>The tanks that fish of this one may go to: in reach, open, and not itself.</summary>
    public async Task<IReadOnlyList<(string Code, string Place)>> TargetsAsync(CurrentUser user, string code, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var rows = await (
            from tank in TanksInReach.Of(db, user).AsNoTracking()
            join room in db.Classrooms on tank.ClassroomId equals room.Id
            join school in db.Schools on room.SchoolId equals school.Id
            where tank.ClosedAt == null && tank.Code != code
            orderby tank.Code
            select new { tank.Code, Room = room.Name, School = school.Name }).ToListAsync(cancel);
        return [.. rows.Select(r => (r.Code, $"{r.School}, {r.Room}"))];
    }
}
