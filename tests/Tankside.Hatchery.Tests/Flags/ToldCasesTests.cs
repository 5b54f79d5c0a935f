using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Readings;
using Tankside.Science.Units;

namespace Tankside.Hatchery.Tests.Flags;

/// <summary>Mornings as coordinators tell them: each of these tanks has to come before one that stands steady at 54 °F.</summary>
public class ToldCasesTests
{
    private static double C(double fahrenheit) => Celsius.FromFahrenheit(fahrenheit).Degrees;

    private static TroubledTank<FlagKind> Judged(string code, TankStory tank, int day, int hour, int minute = 0)
    {
        var record = tank.Record;
        var found = Assessment.Assess(record, TankStory.At(day, hour, minute));
        return new TroubledTank<FlagKind>(record.Tank with { Code = code }, record.Fish, record.Calendar, [.. found.Select(f => (f.Kind, f))]);
    }

    private static IReadOnlyList<Call<FlagKind>> Round(TankStory tank, TankStory steady, int day, int hour, int minute = 0) =>
        MorningRound.Order([Judged("STEADY", steady, day, hour, minute), Judged("TOLD", tank, day, hour, minute)], TankStory.At(day, hour, minute));

    /// <summary>Eggs at 54 °F for days, in a full tank: over the first limit and going nowhere.</summary>
    private static TankStory Steady() =>
        TankStory.Eggs().Fish(300).Water(-2, 9, C(54)).Water(-1, 9, C(54)).Water(0, 8.5, C(54));

    private static void AssertFirst(IReadOnlyList<Call<FlagKind>> calls, FlagKind why)
    {
        Assert.Equal(["TOLD", "STEADY"], calls.Select(c => c.Tank.Code));
        Assert.Contains(why, calls[0].Troubles.Select(t => t.Key));
        Assert.Equal([FlagKind.Warm], calls[1].Troubles.Select(t => t.Key));
    }

    [Fact]
    public void Swim_up_fry_at_51_in_the_morning_and_61_before_the_bell()
    {
        var calls = Round(TankStory.Fry().Water(-1, 9, C(51)).Water(0, 9, C(51)).Water(0, 14.75, C(61)), Steady(), 0, 14, 50);

        AssertFirst(calls, FlagKind.WarmingFast);
        Assert.InRange(calls[0].HoursLeft!.Value.Mid, 0.1, 18); // Past 68 °F before anybody is back tomorrow.
    }

    [Fact]
    public void Eggs_rising_to_61() =>
        AssertFirst(Round(TankStory.Eggs().Water(-1, 9, C(51)).Water(0, 8.5, C(61)), Steady(), 0, 9), FlagKind.WarmingFast);

    [Fact]
    public void A_coil_cased_in_ice_at_38() =>
        AssertFirst(Round(TankStory.Fry().Water(-1, 9, C(50)).Water(0, 8.5, C(38)), Steady(), 0, 9), FlagKind.IcedCoil);

    [Fact]
    public void Alevins_found_at_59_7() => AssertFirst(Round(TankStory.Alevins().Water(-1, 9, C(58)).Water(0, 8.5, C(59.7)), Steady(), 0, 9), FlagKind.Warm);

    [Fact]
    public void Still_water_over_heaped_eggs() =>
        AssertFirst(Round(TankStory.Eggs().Seen(0, 8.5, new Observation { Moving = false }), Steady(), 0, 9), FlagKind.PumpFault);

    [Fact]
    public void A_room_that_is_silent_after_a_break()
    {
        var calls = Round(TankStory.Eggs().Water(-5, 9, 10.5).Closed(-2, -1), Steady().Closed(-2, -1), 0, 10, 30);

        AssertFirst(calls, FlagKind.Silent);
    }
}
