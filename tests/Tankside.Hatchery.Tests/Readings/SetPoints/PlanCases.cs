using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;
using Tankside.Hatchery.Readings.SetPoints;
using Tankside.Science.Eggs;

namespace Tankside.Hatchery.Tests.Readings.SetPoints;

/// <summary>Made-up tanks to plan for, each the same for its seed.</summary>
internal static class PlanCases
{
    public static readonly SetPointRules Rules = new(4.4, 12.2, 0.56, SchoolCalendar.BreakDays, 10, 3, 0.05);

    private static readonly DateOnly Start = new(2026, 11, 2);

    private static readonly Species[] Kinds =
        [Species.RainbowTrout, Species.BrownTrout, Species.BrookTrout, Species.AtlanticSalmon, Species.ChinookSalmon, Species.CohoSalmon];

    public static SchoolCalendar Calendar(params (DateOnly First, DateOnly Last)[] closures) =>
        new(ProgrammeClock.Of("America/Denver"), new(8, 0), new(15, 15), closures);

    /// <summary>A tank of trout that came fifteen days old at 9 °C and was read at 10 °C each day.</summary>
    public static SetPointQuestion Trout(DateOnly today, int daysHere, double setPoint = 10, params (DateOnly First, DateOnly Last)[] closures)
    {
        var delivered = today.AddDays(-daysHere);
        return Ask(today, new LotProfile("L1", Species.RainbowTrout, delivered.AddDays(-15), delivered.AddDays(-15), 9, delivered, "R1"),
            [.. Enumerable.Range(0, daysHere).Select(i => new TankDay { Day = delivered.AddDays(i), MeanC = 10 })], setPoint, Calendar(closures));
    }

    public static SetPointQuestion Random(int seed)
    {
        var dice = new Random(seed);
        var today = Start.AddDays(dice.Next(150));
        var here = dice.Next(0, 14);
        var delivered = today.AddDays(-here);
        var hatcheryC = 6 + (dice.NextDouble() * 5);
        var spawned = delivered.AddDays(-dice.Next(10, 26));
        var lot = new LotProfile("L1", Kinds[dice.Next(Kinds.Length)], spawned, spawned.AddDays(dice.Next(4)), hatcheryC, delivered, "R1");
        var setPoint = Math.Round(dice.Next(3) == 0 ? 5 + (dice.NextDouble() * 7) : (dice.Next(42, 54) - 32) / 1.8, 2);
        var days = Enumerable.Range(0, here).Where(_ => dice.Next(4) > 0)
            .Select(i => new TankDay { Day = delivered.AddDays(i), MeanC = Math.Round(setPoint + (dice.NextDouble() * 2) - 1, 1) }).ToList();
        var autumn = Start.AddDays(dice.Next(20, 26));
        var winter = Start.AddDays(dice.Next(44, 52));
        var spring = Start.AddDays(dice.Next(140, 150));
        var calendar = Calendar((autumn, autumn.AddDays(2)), (winter, winter.AddDays(13)), (spring, spring.AddDays(6)));
        return Ask(today, lot, days, setPoint, calendar) with
        {
            Dial = dice.Next(2) == 0 ? TemperatureUnit.F : TemperatureUnit.C,
            FirstTurn = today.AddDays(dice.Next(2)),
            NoneHatchedOn = dice.Next(2) == 0 ? today.AddDays(-1) : null,
            ReleaseOn = dice.Next(3) == 0 ? today.AddDays(dice.Next(40, 110)) : null,
        };
    }

    private static SetPointQuestion Ask(DateOnly today, LotProfile lot, List<TankDay> days, double setPoint, SchoolCalendar calendar)
    {
        var now = TankDevelopment.On(today, lot, days, setPoint);
        return new SetPointQuestion
        {
            Today = today,
            FirstTurn = today,
            SetPointC = setPoint,
            Dial = TemperatureUnit.F,
            Hatch = now.Hatch?.Outlook,
            SwimUp = now.SwimUp?.Outlook,
            Calendar = calendar,
            Rules = Rules,
            Goal = SetPointGoal.ClearOfClosedDays,
        };
    }
}
