using Tankside.Hatchery.Readings;

namespace Tankside.Hatchery.Tests.Readings;

public class ObservationRulesTests
{
    private static readonly DateTime Now = new(2027, 1, 20, 18, 0, 0, DateTimeKind.Utc);

    public static TheoryData<Observation> Edges => new()
    {
        new Observation(),
        new Observation { RoomC = -30 },
        new Observation { RoomC = 50 },
        new Observation { DeadEggs = 0, DeadAlevins = 0, DeadFry = 0 },
        new Observation { DeadEggs = 100_000 },
        new Observation { Ph = 0 },
        new Observation { Ph = 14 },
        new Observation { AmmoniaTotalMgL = 0, NitriteMgL = 0, OxygenMgL = 0, ChlorineMgL = 0, WaterChangedPercent = 0 },
        new Observation { AmmoniaTotalMgL = 100, NitriteMgL = 100, OxygenMgL = 30, ChlorineMgL = 20, WaterChangedPercent = 100 },
        new Observation { Note = new string('x', 1000) },
    };

    public static TheoryData<Observation, FieldRefusal> Beyond => new()
    {
        { new Observation { RoomC = -30.1 }, new FieldRefusal("roomC", FieldRule.OutOfRange, -30, 50) },
        { new Observation { RoomC = 50.1 }, new FieldRefusal("roomC", FieldRule.OutOfRange, -30, 50) },
        { new Observation { DeadEggs = -1 }, new FieldRefusal("deadEggs", FieldRule.OutOfRange, 0, 100_000) },
        { new Observation { DeadAlevins = 100_001 }, new FieldRefusal("deadAlevins", FieldRule.OutOfRange, 0, 100_000) },
        { new Observation { DeadFry = int.MinValue }, new FieldRefusal("deadFry", FieldRule.OutOfRange, 0, 100_000) },
        { new Observation { Ph = 14.1 }, new FieldRefusal("ph", FieldRule.OutOfRange, 0, 14) },
        { new Observation { Ph = double.NaN }, new FieldRefusal("ph", FieldRule.OutOfRange, 0, 14) },
        { new Observation { AmmoniaTotalMgL = -0.1 }, new FieldRefusal("ammoniaTotalMgL", FieldRule.OutOfRange, 0, 100) },
        { new Observation { NitriteMgL = 100.1 }, new FieldRefusal("nitriteMgL", FieldRule.OutOfRange, 0, 100) },
        { new Observation { OxygenMgL = 30.1 }, new FieldRefusal("oxygenMgL", FieldRule.OutOfRange, 0, 30) },
        { new Observation { ChlorineMgL = 20.1 }, new FieldRefusal("chlorineMgL", FieldRule.OutOfRange, 0, 20) },
        { new Observation { WaterChangedPercent = 100.1 }, new FieldRefusal("waterChangedPercent", FieldRule.OutOfRange, 0, 100) },
        { new Observation { Note = new string('x', 1001) }, new FieldRefusal("note", FieldRule.TooLong, 0, 1000) },
    };

    [Theory]
    [MemberData(nameof(Edges))]
    public void What_can_be_is_kept_up_to_the_edge(Observation seen) => Assert.Empty(ObservationRules.Check(seen));

    [Theory]
    [MemberData(nameof(Beyond))]
    public void What_cannot_be_is_refused_by_its_field_with_its_range(Observation seen, FieldRefusal refusal) =>
        Assert.Equal([refusal], ObservationRules.Check(seen));

    [Fact]
    public void Every_field_that_is_wrong_is_told_at_once() =>
        Assert.Equal(
            ["roomC", "ph", "note"],
            ObservationRules.Check(new Observation { Ph = 15, RoomC = 90, Note = new string('x', 2000) }).Select(r => r.Field));

    [Theory]
    [InlineData(-600, -600)]
    [InlineData(0, 0)]
    [InlineData(1, 0)]
    [InlineData(10, 0)]
    public void A_clock_a_little_fast_is_taken_as_now(int minutes, int kept) =>
        Assert.Equal(Now.AddMinutes(kept), ObservationRules.AcceptedTime(Now.AddMinutes(minutes), Now));

    [Fact]
    public void A_time_further_ahead_is_not_taken() =>
        Assert.Null(ObservationRules.AcceptedTime(Now.AddMinutes(10).AddTicks(1), Now));

    [Fact]
    public void Nothing_looked_at_is_empty_and_a_count_of_none_is_not()
    {
        Assert.True(new Observation().IsEmpty);
        Assert.False(new Observation { DeadEggs = 0 }.IsEmpty);
        Assert.False(new Observation { Moving = false }.IsEmpty);
    }
}
