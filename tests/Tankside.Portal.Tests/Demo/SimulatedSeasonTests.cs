using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Readings;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Demo.Simulated;
using Tankside.Portal.Releases;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Demo;

/// <summary>A made-up season is one that the portal could have lived through, and the same again from the same seed.</summary>
public class SimulatedSeasonTests
{
    private static readonly SimulatedSize Size = new(12, 120, 8, null);

    [Theory, BothDatabases]
    public async Task Its_account_balances_its_flags_are_few_and_its_fish_are_let_go(DatabaseKind kind)
    {
        await using var host = await PortalHost.CreateAsync(kind);
        var report = await WriteAsync(host, Size);
        await host.SweepAsync();

        await using var db = host.OpenDb();
        var programme = await db.Programmes.SingleAsync();
        var totals = await host.CallAsync<TotalsOfSeason, SeasonTotals?>(t => t.LoadAsync(programme.Id, null, CancellationToken.None));
        Assert.Equal(Size.Tanks, totals!.Tanks.Count);
        Assert.All(totals.Tanks, t => Assert.True(t.Balance.Balances));
        Assert.True(totals.Tanks.Count(t => t.Balance.Released > 0) >= Size.Tanks / 2, "Most should be let go by the end of four months.");
        Assert.Equal(totals.Tanks.Count(t => t.Balance.Released > 0), await db.Tanks.CountAsync(t => t.ClosedAt != null));
        Assert.InRange(await db.Flags.Where(f => f.State == FlagState.Open).Select(f => f.TankId).Distinct().CountAsync(), 0, Size.Tanks / 2);
        Assert.Equal(report.Readings, await db.Readings.CountAsync(r => r.State == ReadingState.Accepted));
        Assert.Equal(report.Rows, report.Readings + await CountAsync(db));
    }

    [Theory, BothDatabases]
    public async Task The_same_seed_tells_the_same_season_and_another_seed_another(DatabaseKind kind)
    {
        await using var one = await PortalHost.CreateAsync(kind);
        await using var same = await PortalHost.CreateAsync(kind);
        await using var other = await PortalHost.CreateAsync(kind);
        var small = Size with { Tanks = 4, Days = 20, LoggerMinutes = 240 };
        await WriteAsync(one, small);
        await WriteAsync(same, small);
        await WriteAsync(other, small with { Seed = 9 });

        Assert.Equal(await TextAsync(one), await TextAsync(same));
        Assert.NotEqual(await TextAsync(one), await TextAsync(other));
    }

    private static Task<SimulatedReport> WriteAsync(PortalHost host, SimulatedSize size) => host.CallAsync<IServiceProvider, SimulatedReport>(
        services => ActivatorUtilities.CreateInstance<SimulatedSeason>(services).WriteAsync(size, TestWorld.Now, (_, _) => { }, CancellationToken.None));

    /// <summary>Every other row that was written, but for the flags that were judged since.</summary>
    private static async Task<int> CountAsync(HatcheryDb db) =>
        await db.Ledger.CountAsync() + await db.Receipts.CountAsync() + await db.Releases.CountAsync() + await db.TankDays.CountAsync() + await db.DayFacts.CountAsync()
        + await db.Programmes.CountAsync() + await db.Seasons.CountAsync() + await db.ReleaseSites.CountAsync() + await db.Permits.CountAsync()
        + await db.Schools.CountAsync() + await db.EggLots.CountAsync() + await db.Classrooms.CountAsync() + await db.Tanks.CountAsync()
        + await db.RoomCodes.CountAsync() + await db.Users.CountAsync() + await db.Memberships.CountAsync();

    private static async Task<string> TextAsync(PortalHost host)
    {
        await using var db = host.OpenDb();
        return JsonSerializer.Serialize(new
        {
            Tanks = await db.Tanks.OrderBy(t => t.Code).ToListAsync(),
            Readings = (await db.Readings.AsNoTracking().ToListAsync()).OrderBy(r => r.SenderId).Select(r => new { r.SenderId, r.TankId, r.At, r.Seen, r.ContentHash }),
            Ledger = (await db.Ledger.AsNoTracking().ToListAsync()).OrderBy(l => l.TankId).ThenBy(l => l.At).ThenBy(l => l.Kind).Select(l => new { l.TankId, l.At, l.Kind, l.Count }),
            Codes = await db.RoomCodes.OrderBy(c => c.Code).Select(c => c.Code).ToListAsync(),
        });
    }
}
