using System.Globalization;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Flags;
using Tankside.Portal.Tests.Readings;
using Tankside.Storage;
using Tankside.Storage.Readings;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Flags;

/// <summary>What is past is judged by as it was packed, and is packed anew whenever anything of it changes.</summary>
public class PastDaysTests
{
    private const int Many = 24, Days = 40;

    [Theory, BothDatabases]
    public async Task Days_that_are_packed_are_the_days_that_are_stored_whatever_comes_late(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        List<Tank> tanks = [.. Enumerable.Range(0, Many).Select(i => new Tank
        {
            Id = Guid.NewGuid(),
            ProgrammeId = world.One.Programme.Id,
            ClassroomId = world.One.Rooms[0].Id,
            Code = string.Create(CultureInfo.InvariantCulture, $"P{i:00}"),
            Litres = 208,
            SetPointC = 10,
        })];
        await host.SeedAsync(db => db.AddRange(tanks));
        await host.RecordAsync([.. tanks.SelectMany((t, i) => Enumerable.Range(0, Days - i).Select(day => Sent.Water(t, host.Now.AddDays(-day).AddMinutes(-i), 9.5 + (day % 7 / 10.0))))]);
        List<Guid> ids = [.. tanks.Select(t => t.Id)];
        await host.JudgeAsync();
        await AssertSameAsync(host, ids, packed: 0);

        await host.SweepAsync();
        await AssertSameAsync(host, ids, packed: Many);

        // One comes late, one is corrected, one is of today, which nobody packed.
        var first = Sent.Water(tanks[1], host.Now.AddDays(-30).AddHours(1), 8.8);
        await host.AcceptAsync(Sent.Water(tanks[0], host.Now.AddDays(-31), 4.4), first, Sent.Water(tanks[2], host.Now, 9.9));
        await host.JudgeAsync();
        await AssertSameAsync(host, ids, packed: Many - 2);
        await host.AcceptAsync(Sent.Water(tanks[1], host.Now.AddDays(-30).AddHours(1), 7.7) with { Corrects = first.SenderId });
        await host.JudgeAsync();
        await AssertSameAsync(host, ids, packed: Many - 2);
        await host.SweepAsync();
        await AssertSameAsync(host, ids, packed: Many);

        var until = await UntilAsync(host);
        host.Time.Advance(TimeSpan.FromDays(6));
        await host.SweepAsync();
        Assert.Equal(until, await UntilAsync(host));
        host.Time.Advance(TimeSpan.FromDays(2));
        await host.SweepAsync();
        Assert.Equal([.. until.Select(u => u.AddDays(8))], await UntilAsync(host));
        await AssertSameAsync(host, ids, packed: Many);

        await host.Services.GetRequiredService<RunningState>().RebuildAsync((_, _) => { }, CancellationToken.None);
        await AssertSameAsync(host, ids, packed: 0);
    }

    private static async Task<List<DateOnly>> UntilAsync(PortalHost host)
    {
        await using var db = host.OpenDb();
        return await db.PastDays.Select(p => p.Until).Distinct().ToListAsync();
    }

    private static async Task AssertSameAsync(PortalHost host, List<Guid> ids, int packed)
    {
        await using var db = host.OpenDb();
        Assert.Equal(packed, await db.PastDays.CountAsync(p => ids.Contains(p.TankId)));
        var days = await DaysOfTanks.LoadAsync(db, ids, CancellationToken.None);
        var stored = (await db.TankDays.AsNoTracking().ToListAsync()).ToLookup(d => d.TankId);
        foreach (var id in ids)
        {
            Assert.Equal([.. stored[id].OrderBy(d => d.Day).Select(Text)], [.. days.Of(id).Select(Text)]);
        }
    }

    private static string Text(TankDay day) => JsonSerializer.Serialize(day);
}
