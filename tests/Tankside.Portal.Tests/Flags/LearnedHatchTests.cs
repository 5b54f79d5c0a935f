using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Flags;
using Tankside.Portal.Readings;
using Tankside.Portal.Tests.Readings;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Flags;

/// <summary>A hatch seen in one school sharpens the dates of another, and is taken back with its reading.</summary>
public class LearnedHatchTests
{
    private static readonly DateTime HatchDay = new(2027, 1, 27, 15, 15, 0, DateTimeKind.Utc);

    private static readonly PortalHostSettings OnHatchDay = new() { Now = HatchDay };

    [Theory, BothDatabases]
    public async Task A_siblings_hatch_sharpens_the_dates_and_its_correction_takes_that_back(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind, OnHatchDay);
        await using var _ = host;
        await ReadDailyAsync(host, world.One.Tanks);
        var alone = await DevelopmentAsync(host, world.One.Tanks[0]);

        var half = await HatchAsync(host, world.One.Tanks[1]);
        var taught = await DevelopmentAsync(host, world.One.Tanks[0]);

        Assert.Null(alone.Learned);
        Assert.Equal(new LearnedFrom(1, false, 0, false), taught.Learned);
        Assert.True(taught.Hatch!.SdDays < alone.Hatch!.SdDays);
        Assert.NotEqual(0, taught.Hatch.LearnedDays);
        Assert.Equal(new LearnedFrom(0, true, 0, false), (await DevelopmentAsync(host, world.One.Tanks[1])).Learned);
        Assert.Equal(taught.Hatch.SdDays, Assert.Single(await GlancesAsync(host, world.One.Tanks[0])).Development!.Hatch!.SdDays, 9);

        await host.AcceptAsync(half with { SenderId = Guid.NewGuid(), Corrects = half.SenderId, Seen = new Observation { Hatched = Share.None } });
        await host.JudgeAsync();

        var after = await DevelopmentAsync(host, world.One.Tanks[0]);
        Assert.Null(after.Learned);
        Assert.Equal(alone.Hatch.SdDays, after.Hatch!.SdDays, 9);
    }

    [Theory, BothDatabases]
    public async Task A_hatch_withdrawn_with_its_reading_teaches_no_more(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind, OnHatchDay);
        await using var _ = host;
        await ReadDailyAsync(host, world.One.Tanks);
        var half = await HatchAsync(host, world.One.Tanks[1]);
        Assert.NotNull((await DevelopmentAsync(host, world.One.Tanks[0])).Learned);

        await using (var db = host.OpenDb())
        {
            foreach (var reading in db.Readings.Where(r => r.TankId == half.TankId && (r.Seen.Hatched == Share.Half || r.Seen.Hatched == Share.Some)))
            {
                reading.State = ReadingState.Withdrawn;
                db.UnjudgedFacts.Add(new UnjudgedFact { TankId = reading.TankId, At = reading.At });
            }

            await db.SaveChangesAsync();
        }

        await host.JudgeAsync();

        Assert.Null((await DevelopmentAsync(host, world.One.Tanks[0])).Learned);
    }

    [Theory, BothDatabases]
    public async Task A_teacher_reads_from_how_many_siblings_the_dates_come_and_not_from_which(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind, OnHatchDay);
        await using var _ = host;
        await ReadDailyAsync(host, world.One.Tanks);
        await HatchAsync(host, world.One.Tanks[1]);

        var page = await (await host.ClientAs(Role.Teacher, world.One)).ReadAsync("/tanks/A001");

        Assert.Contains("Sharpened by one sibling tank of lot L1 that was seen hatching: hatch about ", page, StringComparison.Ordinal);
        Assert.Contains("The hatches seen make the first two causes smaller", page, StringComparison.Ordinal);
        Assert.DoesNotContain("A002", page, StringComparison.Ordinal);
        Assert.DoesNotContain("Mill Pond", page, StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task A_hatch_of_another_programme_or_lot_teaches_nothing(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind, OnHatchDay);
        await using var _ = host;
        await ReadDailyAsync(host, [.. world.One.Tanks, .. world.Two.Tanks]);
        await HatchAsync(host, world.Two.Tanks[1]);

        Assert.Null((await DevelopmentAsync(host, world.One.Tanks[0])).Learned);
        Assert.NotNull((await DevelopmentAsync(host, world.Two.Tanks[0])).Learned);
    }

    [Theory, BothDatabases]
    public async Task Late_tanks_of_a_lot_are_late_no_more_when_the_first_of_them_hatches_and_late_again_when_that_was_a_slip(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind, new PortalHostSettings { Now = HatchDay.AddDays(6) });
        await using var _ = host;
        await ReadDailyAsync(host, world.One.Tanks);
        await host.SweepAsync();
        Assert.Equal(2, await LateAsync());

        var half = await HatchAsync(host, world.One.Tanks[1]);
        await host.SweepAsync();
        Assert.Equal(0, await LateAsync());

        await host.AcceptAsync(half with { SenderId = Guid.NewGuid(), Corrects = half.SenderId, Seen = new Observation { Hatched = Share.None } });
        await host.JudgeAsync();
        await host.SweepAsync();

        // In the tank itself "some" of the day before stands still.
        Assert.Equal(1, await LateAsync());

        async Task<int> LateAsync() => (await host.FlagsAsync(FlagKind.LateHatch))
            .Count(f => f.State == FlagState.Open && world.One.Tanks.Any(t => t.Id == f.TankId));
    }

    /// <summary>At the set point each morning since the eggs came.</summary>
    private static async Task ReadDailyAsync(PortalHost host, IReadOnlyList<Tank> tanks)
    {
        var days = (int)(host.Now - TestProgramme.DeliveredAt).TotalDays;
        await host.AcceptAsync([.. tanks.SelectMany(tank => Enumerable.Range(0, days).Select(d =>
            Sent.Water(tank, host.Now.AddDays(-d).AddHours(-1), 10.5 + (d % 2 * 0.1))))]);
        await host.JudgeAsync();
    }

    /// <summary>None the day before yesterday, some yesterday, half this morning; gives the reading of this morning.</summary>
    private static async Task<IncomingReading> HatchAsync(PortalHost host, Tank tank)
    {
        var half = Said(0, Share.Half);
        await host.AcceptAsync(Said(2, Share.None), Said(1, Share.Some), half);
        await host.JudgeAsync();
        return half;

        IncomingReading Said(int daysAgo, Share hatched) => Sent.Seen(tank, host.Now.AddDays(-daysAgo).AddMinutes(-30), new Observation { Hatched = hatched });
    }

    private static async Task<DevelopmentNow> DevelopmentAsync(PortalHost host, Tank tank)
    {
        await using var db = host.OpenDb();
        var record = Assert.Single(await TankRecords.LoadAsync(db, [tank.Id], host.Now, CancellationToken.None));
        return record.DevelopmentOn(record.Calendar.Clock.Day(host.Now));
    }

    private static async Task<IReadOnlyList<TankGlance>> GlancesAsync(PortalHost host, Tank tank)
    {
        await using var db = host.OpenDb();
        return await TankGlances.LoadAsync(db, [tank.Id], host.Now, CancellationToken.None);
    }
}
