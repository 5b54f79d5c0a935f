using Tankside.Science.Heat;
using Tankside.Science.Units;

namespace Tankside.Hatchery.Kit;

/// <summary>How much ice holds one tank without its chiller.</summary>
/// <param name="KgADay">Ice a day, 80% band of the time constant: the middle is the likely need.</param>
/// <param name="BottlesADay">Frozen bottles of <see cref="BottleKg"/> a day, by the near end.</param>
/// <param name="ChangeHours">Hours between changes when so many float at a time, by the near end.</param>
public sealed record IcePlan(double HoldC, double RoomC, (double Low, double Mid, double High) KgADay, int BottlesADay, int AtATime, double ChangeHours)
{
    /// <summary>A two-litre bottle filled to leave room for the ice: it holds about 1.8 kg (no source).</summary>
    public const double BottleKg = 1.8;

    /// <summary>Ice lies no longer than this before somebody looks: bottles are changed every 8 to 12 hours (one coordinator's advice).</summary>
    public const double LongestHours = 12;

    private const double HoursADay = 24;

    /// <summary>Null when the room is no warmer than the water is to be. The pump runs on, and its heat counts.</summary>
    public static IcePlan? For(double litres, Jacket jacket, double roomC, double holdC)
    {
        var volume = new Litres(litres);
        var room = Warming.SettlesAt(new Celsius(roomC), volume, jacket);
        if (room.Degrees <= holdC)
        {
            return null;
        }

        var (tau, logSd) = Warming.TimeConstant(volume, jacket);
        var spread = Math.Exp(Science.Losses.Normal.EightyPercent * logSd);
        var (low, mid, high) = (KgADayOf(tau * spread), KgADayOf(tau), KgADayOf(tau / spread));
        var bottles = Math.Max(1, (int)Math.Ceiling(high / BottleKg));
        var atATime = Math.Max(1, (int)Math.Ceiling(bottles * LongestHours / HoursADay));
        return new IcePlan(holdC, roomC, (low, mid, high), bottles, atATime, Math.Min(LongestHours, HoursADay * atATime / bottles));

        double KgADayOf(double hours) => HoursADay * Warming.IceKgPerHour(Warming.HeatFlowPerKelvin(volume, hours), room, new Celsius(holdC));
    }
}
