namespace Tankside.Hatchery.Eggs.Runs;

/// <summary>When dead on arrival is no bad luck any more.</summary>
public static class ArrivalAlarm
{
    /// <summary>
    /// Share of dead in the box above which somebody is rung. Our own: handling takes a few in a hundred, and a tenth points to heat, drying,
    /// shock or melt water on the way.
    /// </summary>
    public const double DeadShare = 0.10;

    public static bool IsRaised(int eggs, int dead) => eggs > 0 && dead > DeadShare * eggs;
}
