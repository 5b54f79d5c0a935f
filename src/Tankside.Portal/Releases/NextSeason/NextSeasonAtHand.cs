using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Releases;
using Tankside.Hatchery.Seasons;
using Tankside.Portal.Accounts;
using Tankside.Portal.Releases.Sealing;
using Tankside.Storage;

namespace Tankside.Portal.Releases.NextSeason;

/// <summary>A tank that can take part, as the season before left it.</summary>
/// <param name="TookPart">In the season before.</param>
/// <param name="Left">Fish that its ledger leaves in it.</param>
/// <param name="OpensAccount">Opening it again would change the account of the season before, which is not sealed yet.</param>
public sealed record TankToTick(Tank Tank, Classroom Room, School School, bool TookPart, int Left, bool OpensAccount);

/// <summary>What a lead looks at before the next season is made.</summary>
/// <param name="Last">The newest season; null for a programme without any.</param>
public sealed record NextSeasonAtHand(SeasonAtHand Now, Season? Last, bool LastIsSealed, IReadOnlyList<Season> Seasons, IReadOnlyList<TankToTick> Tanks, IReadOnlyList<SeasonTank> LastPart)
{
    /// <summary>Tracks nothing when <paramref name="db"/> is told so by its caller; the tanks that are to change are loaded tracked.</summary>
    public static async Task<NextSeasonAtHand> LoadAsync(HatcheryDb db, CurrentUser user, TimeProvider time, CancellationToken cancel)
    {
        var now = await SeasonAtHand.LoadAsync(db, user.ProgrammeId, time, cancel);
        var seasons = await db.Seasons.AsNoTracking().Where(s => s.ProgrammeId == user.ProgrammeId).OrderBy(s => s.StartsOn).ToListAsync(cancel);
        var last = seasons.LastOrDefault();
        var lastId = last?.Id ?? Guid.Empty;
        var part = await db.SeasonTanks.AsNoTracking().Where(p => p.SeasonId == lastId).ToListAsync(cancel);
        var rows = await (
            from tank in db.Tanks
            join room in db.Classrooms on tank.ClassroomId equals room.Id
            join school in db.Schools on room.SchoolId equals school.Id
            where tank.ProgrammeId == user.ProgrammeId
            orderby school.Name, room.Name, tank.Code
            select new { tank, room, school }).ToListAsync(cancel);
        var entries = (await db.Ledger.AsNoTracking().Where(e => e.SeasonId == lastId).ToListAsync(cancel)).ToLookup(e => e.TankId);
        var isSealed = last is not null && await Seals.IsClosedAsync(db, last.Id, cancel);
        var took = part.Select(p => p.TankId).ToHashSet();
        return new NextSeasonAtHand(now, last, isSealed, seasons, [.. rows.Select(r => Row(r.tank, r.room, r.school))], part);

        TankToTick Row(Tank tank, Classroom room, School school)
        {
            var lines = entries[tank.Id].ToList();
            var closed = tank.ClosedAt is not null;
            return new TankToTick(
                tank, room, school, took.Contains(tank.Id) || lines.Count > 0, TankBalance.Of(lines, closed).StillInTank,
                closed && !isSealed && TankBalance.Of(lines, closed: true) != TankBalance.Of(lines, closed: false));
        }
    }

    /// <summary>A form with what most likely comes: the day after the last season, a year long, named after its years.</summary>
    public SeasonForm Suggest()
    {
        var starts = Last is { } last ? last.EndsOn.AddDays(1) : Now.Today;
        var ends = Last is { } before && before.EndsOn.DayNumber - before.StartsOn.DayNumber is > 300 and < 366 ? before.EndsOn.AddYears(1) : starts.AddYears(1).AddDays(-1);
        return new SeasonForm
        {
            Id = Guid.NewGuid(),
            Name = $"{starts.Year}-{(starts.Year + 1) % 100:00}",
            StartsOn = SeasonForm.Of(starts),
            EndsOn = SeasonForm.Of(ends),
            NotNewAnyMore = true,
        };
    }
}
