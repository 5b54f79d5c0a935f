using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;

namespace Tankside.Hatchery.Tests.Flags;

/// <summary>Eggs may come to a tank that was gone through and has proved cold, or for which somebody has signed.</summary>
public class ReadyGateTests
{
    private static readonly DateTime Now = new(2027, 1, 13, 17, 0, 0, DateTimeKind.Utc);

    private static readonly SchoolCalendar Calendar = new(ProgrammeClock.Of("America/Denver"), new TimeOnly(8, 0), new TimeOnly(15, 15), [], []);

    private static TankRecord Read(params (int DaysAgo, double C)[] water) => new()
    {
        Tank = new TankProfile { Id = Guid.NewGuid(), Code = "A001", SetPointC = 10 },
        Calendar = Calendar,
        Expected = new EggsExpected(new DateOnly(2027, 1, 13), 150),
        Recent = [.. water.OrderByDescending(w => w.DaysAgo).Select(w => new ReadingFact(Now.AddDays(-w.DaysAgo), new Observation { WaterC = w.C }, false, null))],
    };

    private static readonly TankRecord Cold = Read((4, 10), (3, 10.5), (1, 9.6), (0, 10));

    private static ReadyCheck Check() => new()
    {
        CoilDown = true,
        ProbeInWater = true,
        TubesFree = true,
        FilterCovered = true,
        GravelClean = true,
        WaterSafe = true,
    };

    [Fact]
    public void A_tank_gone_through_and_cold_for_days_is_a_go()
    {
        var verdict = ReadyGate.Judge(Cold, Check(), null, Now);

        Assert.Empty(verdict.Missing);
        Assert.True(verdict is { Ready: true, Go: true });
    }

    [Fact]
    public void Each_thing_that_is_missing_is_named()
    {
        Assert.Equal([NotReadyReason.NotLookedAt], ReadyGate.Judge(Cold, null, null, Now).Missing);
        Assert.Equal(
            [NotReadyReason.CoilUp, NotReadyReason.ProbeOut, NotReadyReason.TubesKinked, NotReadyReason.FilterBare, NotReadyReason.GravelDirty, NotReadyReason.WaterUnsafe],
            ReadyGate.Judge(Cold, new ReadyCheck(), null, Now).Missing);
    }

    [Fact]
    public void Water_that_is_unread_off_its_set_point_or_cold_since_yesterday_only_is_a_no_go()
    {
        Assert.Equal([NotReadyReason.Unread], ReadyGate.Judge(Read(), Check(), null, Now).Missing);
        Assert.Equal([NotReadyReason.OffSetPoint], ReadyGate.Judge(Read((4, 10), (0, 14)), Check(), null, Now).Missing);
        Assert.Equal([NotReadyReason.NotColdLongEnough], ReadyGate.Judge(Read((4, 14), (1, 10), (0, 10)), Check(), null, Now).Missing);
    }

    [Fact]
    public void A_signature_lets_eggs_come_and_hides_nothing()
    {
        var verdict = ReadyGate.Judge(Read(), null, new ReadyOverride { SignedAs = "C. Ordinator", Reason = "ice until Monday" }, Now);

        Assert.True(verdict is { Ready: false, Go: true });
        Assert.Equal([NotReadyReason.NotLookedAt, NotReadyReason.Unread], verdict.Missing);
    }

    [Fact]
    public void Where_somebody_has_signed_the_round_no_longer_flags_the_tank()
    {
        Assert.Contains(Assessment.Assess(Read(), Now), f => f.Kind == FlagKind.NotReady);
        Assert.DoesNotContain(Assessment.Assess(Read() with { Expected = new EggsExpected(new DateOnly(2027, 1, 13), 150, SignedFor: true) }, Now), f => f.Kind == FlagKind.NotReady);
    }
}
