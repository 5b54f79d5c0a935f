using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Readings;
using Tankside.Hatchery.Releases;
using Tankside.Storage;

namespace Tankside.Portal.Demo;

/// <summary>Two salmon rooms have let their fish go and are closed, and the report of the earlier is late; one has counted its fish and still has them.</summary>
public static class DemoReleases
{
    /// <summary>Days before the last school day on which a tank's fish were released; null for the others.</summary>
    public static int? ReleasedDaysAgo(int tank) => tank switch
    {
        47 => 3,
        48 => 13,
        _ => null,
    };

    private const int CountedTank = 46;

    public static void Add(HatcheryDb db, DemoBasin basin, DemoTank tank, IReadOnlyList<ReadingFact> facts, DemoDice dice)
    {
        if (facts.Count == 0 || (ReleasedDaysAgo(tank.Number) is null && tank.Number != CountedTank))
        {
            return;
        }

        var left = tank.Plan.Eggs - facts.Sum(f => (f.Seen.DeadEggs ?? 0) + (f.Seen.DeadAlevins ?? 0) + (f.Seen.DeadFry ?? 0));
        var fish = left - dice.Between(9, 21); // What was eaten, dissolved or miscounted is found only by counting.
        var day = basin.Calendar.Clock.Day(facts[^1].At);
        var at = basin.Calendar.Clock.Utc(day, new TimeOnly(12, 30));
        if (tank.Number == CountedTank)
        {
            db.Ledger.Add(Line(LedgerKind.Counted, fish - (tank.Plan.Eggs / 5), null)); // More are missing than counting errs by.
            return;
        }

        var release = new Release
        {
            Id = dice.Id(),
            SeasonId = basin.Season.Id,
            TankId = tank.Tank.Id,
            SiteId = basin.Sites[tank.Number % 2].Id,
            PermitId = basin.ChinookPermit.Id,
            At = at,
            Fish = fish,
            TankC = tank.Tank.SetPointC,
            StreamC = Math.Round(dice.Around(8.5, 0.5), 1),
            EnteredAt = at,
        };
        db.Releases.Add(release);
        db.Ledger.Add(Line(LedgerKind.Released, fish, release.Id));
        tank.Tank.ClosedAt = at.AddHours(2);

        LedgerEntry Line(LedgerKind kind, int count, Guid? releaseId) => new()
        {
            SeasonId = basin.Season.Id,
            TankId = tank.Tank.Id,
            Kind = kind,
            Count = count,
            At = at,
            EnteredAt = at,
            CountedBy = CountMethod.Hand,
            ReleaseId = releaseId,
        };
    }
}
