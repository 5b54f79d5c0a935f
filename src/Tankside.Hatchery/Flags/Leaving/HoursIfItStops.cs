using Tankside.Science.Units;

namespace Tankside.Hatchery.Flags.Leaving;

/// <summary>
/// How long a tank lasts once something stops, counted from its set point in its usual room: for paper, which hangs longer than a reading
/// holds. Each is null where the limit is never reached.
/// </summary>
/// <param name="LimitC">The heat limit of the stage, °C.</param>
/// <param name="ChillerHeat">To the heat limit with the chiller dead and the pump running.</param>
/// <param name="PowerHeat">To the heat limit with everything dead.</param>
/// <param name="StillAir">To the oxygen limit in water that stands still; eggs and alevins as if heaped.</param>
public sealed record HoursIfItStops(double LimitC, Band? ChillerHeat, Band? PowerHeat, Band? StillAir)
{
    /// <summary>Null for a tank without eggs or fish.</summary>
    public static HoursIfItStops? Of(TankRecord record, DateTime now)
    {
        if (record.Lot is null || record.Fish <= 0)
        {
            return null;
        }

        var tank = new UnwatchedTank(new Situation(record with { Recent = [] }, now));
        return new HoursIfItStops(tank.LimitC, tank.HeatHours(LeaveFault.Chiller), tank.HeatHours(LeaveFault.Power), tank.AirHours(LeaveFault.Power));
    }
}
