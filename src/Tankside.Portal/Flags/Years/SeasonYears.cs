using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Flags.Years;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Releases;
using Tankside.Hatchery.Seasons;
using Tankside.Portal.Releases;
using Tankside.Storage;

namespace Tankside.Portal.Flags.Years;

/// <summary>Every season of a programme, newest first, by what one can learn from.</summary>
public sealed class SeasonYears(Replica replica, TotalsOfSeason totals)
{
    private static readonly LedgerKind[] Deaths = [LedgerKind.DeadOnArrival, LedgerKind.EggLoss, LedgerKind.AlevinLoss, LedgerKind.FryLoss, LedgerKind.PutDown];

    private static readonly FlagDeed[] OfPeople =
    [
        FlagDeed.Taken, FlagDeed.Noted, FlagDeed.Closed, FlagDeed.Assigned, FlagDeed.Called, FlagDeed.NotReached, FlagDeed.Promised, FlagDeed.Waiting,
        FlagDeed.FirstAidSent, FlagDeed.SpareReserved,
    ];

    public async Task<IReadOnlyList<SeasonYear>> LoadAsync(Guid programmeId, CancellationToken cancel)
    {
        await using var db = await replica.OpenAsync(cancel);
        var programme = await db.Programmes.AsNoTracking().SingleAsync(p => p.Id == programmeId, cancel);
        var clock = ProgrammeClock.Of(programme.TimeZone);
        var years = new List<SeasonYear>();
        foreach (var season in await db.Seasons.AsNoTracking().Where(s => s.ProgrammeId == programmeId).OrderByDescending(s => s.StartsOn).ToListAsync(cancel))
        {
            var account = (await totals.LoadAsync(programmeId, season.Name, cancel))!;
            var losses = await db.Ledger.AsNoTracking().Where(e => e.SeasonId == season.Id && Deaths.Contains(e.Kind))
                .Select(e => new PastLoss(e.TankId, e.At, e.Count)).ToListAsync(cancel);
            years.Add(SeasonYear.Of(account, account.Tanks.Count(t => t.Balance.In > 0), await FlagsAsync(db, programmeId, season, clock, cancel), losses));
        }

        return years;
    }

    private static async Task<IReadOnlyList<PastFlag>> FlagsAsync(HatcheryDb db, Guid programmeId, Season season, ProgrammeClock clock, CancellationToken cancel)
    {
        var (start, end) = (clock.Utc(season.StartsOn, TimeOnly.MinValue), clock.Utc(season.EndsOn.AddDays(1), TimeOnly.MinValue));
        var flags = await db.Flags.AsNoTracking()
            .Where(f => f.ProgrammeId == programmeId && f.TankId != null && f.OpenedAt >= start && f.OpenedAt < end)
            .Select(f => new { f.Id, TankId = f.TankId!.Value, f.Kind, f.OpenedAt, f.SettledAt }).ToListAsync(cancel);
        var deeds = (await (
            from line in db.FlagEvents.AsNoTracking()
            join flag in db.Flags on line.FlagId equals flag.Id
            where flag.ProgrammeId == programmeId && flag.OpenedAt >= start && flag.OpenedAt < end && OfPeople.Contains(line.Deed)
            orderby line.Id
            select new { line.FlagId, line.At, line.Deed, line.Cause, line.Outcome }).ToListAsync(cancel)).ToLookup(d => d.FlagId);
        var looks = (await db.TankDays.AsNoTracking()
            .Where(d => d.Day >= season.StartsOn && d.Day <= season.EndsOn && db.Flags.Any(f => f.TankId == d.TankId && f.ProgrammeId == programmeId))
            .Select(d => new { d.TankId, d.FirstAt, d.LastAt }).ToListAsync(cancel))
            .SelectMany(d => new[] { (d.TankId, At: d.FirstAt), (d.TankId, At: d.LastAt) }).Distinct().OrderByDescending(d => d.At).ToLookup(d => d.TankId, d => d.At);
        return [.. flags.Select(f => new PastFlag(
            f.TankId, f.Kind, f.OpenedAt, f.SettledAt,
            // The newest look is the one that raised it.
            looks[f.TankId].Where(at => at <= f.OpenedAt).Skip(1).Select(at => (DateTime?)at).FirstOrDefault(),
            deeds[f.Id].Select(d => (DateTime?)d.At).FirstOrDefault(),
            deeds[f.Id].LastOrDefault(d => d.Deed == FlagDeed.Closed)?.Cause,
            deeds[f.Id].LastOrDefault(d => d.Deed == FlagDeed.Closed)?.Outcome == Outcome.FalseAlarm))];
    }
}
