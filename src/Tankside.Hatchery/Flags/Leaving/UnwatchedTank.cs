using Tankside.Hatchery.Flags.Rules;
using Tankside.Science.Heat;
using Tankside.Science.Units;

namespace Tankside.Hatchery.Flags.Leaving;

/// <summary>What may stop while nobody looks.</summary>
public enum LeaveFault
{
    Chiller,
    Pump,

    /// <summary>Chiller, pump and air together: a plug, a breaker, or the street.</summary>
    Power,
}

/// <summary>
/// A tank's own physics once something stops: worked out once, then asked for any moment of a weekend. Water starts as it was last read.
/// </summary>
/// <param name="cooler">°C by which the water is colder than it was last read.</param>
internal sealed class UnwatchedTank(Situation s, double cooler = 0)
{
    private readonly Band? stillPumped = HoursTo(s, (s.WaterC ?? s.Tank.SetPointC) - cooler, s.SettlesAt);

    /// <summary>A pump that stands gives no heat.</summary>
    private readonly Band? still = HoursTo(s, (s.WaterC ?? s.Tank.SetPointC) - cooler, new Celsius(s.RoomC));
    private readonly Band? air = FlowRules.TankHours(s);
    private readonly Band heaped = OxygenHours.Heaped(s);

    public double StartC { get; } = (s.WaterC ?? s.Tank.SetPointC) - cooler;

    public double LimitC => s.HeatLimitFor(StartC);

    /// <summary>Share of faults of this kind.</summary>
    public double Part(LeaveFault fault) => s.Limits[fault switch
    {
        LeaveFault.Chiller => Limits.Leaving.ChillerPart,
        LeaveFault.Pump => Limits.Leaving.PumpPart,
        LeaveFault.Power => Limits.Leaving.PowerPart,
    }];

    /// <summary>Hours from the fault to the heat limit; null where the water never gets there or is still cooled.</summary>
    public Band? HeatHours(LeaveFault fault) => fault switch
    {
        LeaveFault.Chiller => stillPumped,
        LeaveFault.Pump => null,
        LeaveFault.Power => still,
    };

    /// <summary>Hours from the fault to the oxygen limit; eggs and alevins as if heaped, which is the worst.</summary>
    public Band? AirHours(LeaveFault fault) => fault switch
    {
        LeaveFault.Chiller => null,
        LeaveFault.Pump or LeaveFault.Power => s.Swims || air is { } whole && whole.Mid < heaped.Mid ? air : heaped,
    };

    /// <summary>Share of the fish lost to a fault at one moment by the time it is found.</summary>
    /// <param name="spareAirHours">Hours that air of its own carries the tank through a power failure; null without any.</param>
    public double ShareLost(LeaveFault fault, DateTime at, DateTime found, double? spareAirHours = null) =>
        1 - ((1 - LostToHeat(fault, at, found)) * (1 - LostToAir(fault, at, found, spareAirHours)));

    public double LostToHeat(LeaveFault fault, DateTime at, DateTime found) => HeatHours(fault) is { } hours
        ? Hazard.AfterLimit(at, hours, s.Limits[Limits.Losses.HeatTolerance], s.Limits[Limits.Losses.HeatShare]).LostBy(found)
        : 0;

    public double LostToAir(LeaveFault fault, DateTime at, DateTime found, double? spareAirHours = null)
    {
        if (fault == LeaveFault.Chiller)
        {
            return 0;
        }

        // A second air stone goes on when the pump alone stops; without power it bubbles as long as its cells last.
        var bubbles = spareAirHours is { } spare ? (fault == LeaveFault.Pump ? found : at.AddHours(spare)) : at;
        var share = s.Limits[Limits.Losses.StillWaterShare];
        var whole = air is { } hours ? AirLoss(bubbles, hours, share).LostBy(found) : 0;
        if (s.Swims)
        {
            return whole;
        }

        // Bubbles elsewhere in the tank do nothing for a heap of eggs: only flow does.
        var chance = s.Limits[Limits.Leaving.Heaped];
        return (chance * AirLoss(at, heaped, share).LostBy(found)) + ((1 - chance) * whole);
    }

    private Hazard AirLoss(DateTime from, Band hours, double share) =>
        Hazard.AfterLimit(from, hours, s.Limits[Limits.Losses.AirTolerance], share);

    private static Band? HoursTo(Situation s, double startC, Celsius settles)
    {
        var (tau, logSd) = Warming.TimeConstant(new Litres(s.Tank.Litres), s.Tank.Jacket);
        return Warming.HoursTo(new Celsius(s.HeatLimitFor(startC)), new Celsius(startC), settles, tau, logSd);
    }
}
