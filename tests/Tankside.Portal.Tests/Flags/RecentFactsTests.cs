using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Flags;
using Tankside.Portal.Tests.Readings;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Flags;

/// <summary>What the rules look back on comes from the running state, and is never behind what is stored.</summary>
public class RecentFactsTests
{
    [Theory, BothDatabases]
    public async Task A_reading_shows_at_once_and_again_after_it_was_judged(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var tank = world.One.Tanks[0];
        await host.AcceptAsync(Sent.Water(tank, host.Now.AddDays(-2), 9.8), Sent.Water(tank, host.Now.AddHours(-3), 10));
        Assert.Equal([9.8, 10], await WaterAsync(host, tank.Id));
        await host.JudgeAsync();
        Assert.Equal([9.8, 10], await WaterAsync(host, tank.Id));

        var newest = Sent.Water(tank, host.Now.AddMinutes(-5), 10.4);
        await host.AcceptAsync(newest);

        Assert.Equal([9.8, 10, 10.4], await WaterAsync(host, tank.Id));
        await host.AcceptAsync(Sent.Water(tank, host.Now.AddMinutes(-5), 10.6) with { Corrects = newest.SenderId });
        Assert.Equal([9.8, 10, 10.6], await WaterAsync(host, tank.Id));
        await host.JudgeAsync();
        Assert.Equal([9.8, 10, 10.6], await WaterAsync(host, tank.Id));
    }

    [Theory, BothDatabases]
    public async Task A_logger_of_each_minute_costs_a_judgement_no_more_than_one_of_each_hour(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var (often, seldom) = (world.One.Tanks[0], world.One.Tanks[1]);
        await host.RecordAsync([.. Enumerable.Range(0, 600).Select(i => Sent.Water(often, host.Now.AddMinutes(-i), 10.5 + (i % 3 / 10.0)) with { Source = ReadingSource.Logger })]);
        await host.RecordAsync([.. Enumerable.Range(0, 10).Select(i => Sent.Water(seldom, host.Now.AddHours(-i), 10.5) with { Source = ReadingSource.Logger })]);
        await host.JudgeAsync();

        await using var db = host.OpenDb();
        Assert.Equal(600, await db.Readings.CountAsync(r => r.TankId == often.Id && r.State == ReadingState.Accepted));
        Assert.InRange((await WaterAsync(host, often.Id)).Count, 11, 12); // Of the hour that began an hour ago the late and the prompt ones are told apart.
        Assert.Equal(10, (await WaterAsync(host, seldom.Id)).Count);
    }

    [Theory, BothDatabases]
    public async Task What_the_rules_look_back_on_no_more_is_not_kept(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var tank = world.One.Tanks[0];
        await host.AcceptAsync(Sent.Water(tank, host.Now.AddDays(-TankRecord.RecentDays - 3), 9.7), Sent.Water(tank, host.Now.AddDays(-20), 9.8), Sent.Water(tank, host.Now, 10));
        await host.JudgeAsync();
        Assert.Equal([9.8, 10], await WaterAsync(host, tank.Id));
        await using var db = host.OpenDb();
        Assert.Equal((3, 2), (await db.TankDays.CountAsync(), await db.DayFacts.CountAsync()));

        host.Time.Advance(TimeSpan.FromDays(3));
        await host.SweepAsync();

        Assert.Equal((3, 1), (await db.TankDays.CountAsync(), await db.DayFacts.CountAsync()));
        Assert.Equal([10], await WaterAsync(host, tank.Id));
    }

    [Theory, BothDatabases]
    public async Task A_rebuilt_state_is_what_was_read_and_nothing_of_what_somebody_wrote_into_it(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var tank = world.One.Tanks[0];
        await host.AcceptAsync(Sent.Water(tank, host.Now.AddDays(-1), 9.8), Sent.Water(tank, host.Now, 10));
        await host.JudgeAsync();
        await using var db = host.OpenDb();
        await db.DayFacts.ExecuteUpdateAsync(d => d.SetProperty(x => x.Packed, new byte[] { 9 }));
        await db.TankDays.ExecuteUpdateAsync(d => d.SetProperty(x => x.MeanC, 99));
        await host.SeedAsync(d => d.TankDays.Add(new TankDay { TankId = world.Two.Tanks[0].Id, Day = new DateOnly(2027, 1, 30), Readings = 3 }));

        await host.Services.GetRequiredService<RunningState>().RebuildAsync((_, _) => { }, CancellationToken.None);

        Assert.Equal([9.8, 10], await WaterAsync(host, tank.Id));
        Assert.Equal([9.8, 10], await db.TankDays.OrderBy(d => d.Day).Select(d => d.MeanC!.Value).ToListAsync());
    }

    private static async Task<List<double>> WaterAsync(PortalHost host, Guid tank)
    {
        await using var db = host.OpenDb();
        var record = (await TankRecords.LoadAsync(db, [tank], host.Now, CancellationToken.None)).Single();
        return [.. record.Recent.Select(r => r.Seen.WaterC!.Value)];
    }
}
