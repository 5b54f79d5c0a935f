using Tankside.Science.Losses;
using Tankside.Science.Units;

namespace Tankside.Science.Heat;

/// <summary>What the vessel wears against the warmth of the room.</summary>
public enum Jacket
{
    /// <summary>Bare dry glass with a lid.</summary>
    None,

    /// <summary>One inch (2.5 cm) of rigid foam on all faces with the usual gaps.</summary>
    Foam,
}

/// <summary>
/// How still-circulating water drifts to room temperature when its cooling stops: T(t) = S - (S - T0) exp(-t / tau).
/// </summary>
/// <remarks>
/// T0 water now, S where it settles (room plus the pump's heat), tau the time constant in hours, t hours. Newton's law of
/// cooling; textbook physics. tau is a computed estimate (film and wall resistances over six glass vessels of 10 to 55 US gal,
/// not measured), so it carries a wide log-normal spread and gives way to readings (<see cref="UpdateTau"/>).
/// </remarks>
public static class Warming
{
    /// <summary>Heat that a circulation pump leaves in the water, W. Assumed in the computed table; no other source.</summary>
    public const double PumpWatts = 15;

    /// <summary>
    /// Standard deviation of ln tau. Its 80% band (0.6 to 1.67 times) takes in sweating glass (a third faster), an older hand
    /// calculation 1.6 times slower and a foam jacket without gaps (1.5 times slower). No other source.
    /// </summary>
    public const double TauLogSd = 0.4;

    /// <summary>
    /// Standard deviation of ln tau outside 38-208 L, where the middle is extrapolated. No source: chosen here.
    /// </summary>
    public const double TauLogSdExtrapolated = 0.5;

    /// <summary>
    /// Readings never make ln tau surer than this, because room temperature and pump heat are not known better. No source:
    /// chosen here.
    /// </summary>
    public const double SmallestTauLogSd = 0.1;

    /// <summary>
    /// The prior of the time constant: middle in hours and standard deviation of its logarithm. Log-log between the computed
    /// volumes (37.9-208 L); outside, tau grows with the cube root of volume from the nearest end (volume over surface) and the
    /// spread is <see cref="TauLogSdExtrapolated"/>. Throws unless the volume is positive and finite.
    /// </summary>
    /// <param name="litres">Water volume, L.</param>
    /// <param name="jacket">Bare glass or foam.</param>
    public static (double MidHours, double LogSd) TimeConstant(Litres litres, Jacket jacket) => WarmingTable.Tau(litres, jacket);

    /// <summary>
    /// Heat flow into the water per kelvin, W/K: UA = V x 4186 J/(L K) / (tau x 3600 s/h), V in litres and tau in hours.
    /// </summary>
    /// <param name="litres">Water volume, L; positive.</param>
    /// <param name="tauHours">Time constant, h; positive.</param>
    public static double HeatFlowPerKelvin(Litres litres, double tauHours)
    {
        Require.Positive(litres.Value, nameof(litres));
        Require.Positive(tauHours, nameof(tauHours));
        return litres.Value * 4186 / (tauHours * 3600);
    }

    /// <summary>Where the water settles with its pump on: room + 15 W / UA, °C.</summary>
    /// <param name="room">Room temperature, °C.</param>
    /// <param name="litres">Water volume, L; positive.</param>
    /// <param name="jacket">Bare glass or foam.</param>
    public static Celsius SettlesAt(Celsius room, Litres litres, Jacket jacket)
    {
        Require.Finite(room.Degrees, nameof(room));
        return new(room.Degrees + (PumpWatts / HeatFlowPerKelvin(litres, TimeConstant(litres, jacket).MidHours)));
    }

    /// <summary>
    /// Hours until the water is as warm as <paramref name="limit"/>: tau ln((S - T0) / (S - limit)), as an 80% band from the
    /// spread of tau. Zeros when it already is; null when it never gets there (the limit is at or above S).
    /// </summary>
    /// <param name="limit">The temperature asked about, °C.</param>
    /// <param name="start">Water now, °C.</param>
    /// <param name="settlesAt">Where it settles, S, °C.</param>
    /// <param name="tauMid">Median time constant, h; positive.</param>
    /// <param name="tauLogSd">Standard deviation of ln tau, 0 or more.</param>
    public static Band? HoursTo(Celsius limit, Celsius start, Celsius settlesAt, double tauMid, double tauLogSd)
    {
        Require.Finite(limit.Degrees, nameof(limit));
        Require.Finite(start.Degrees, nameof(start));
        Require.Finite(settlesAt.Degrees, nameof(settlesAt));
        Require.Positive(tauMid, nameof(tauMid));
        Require.NotNegative(tauLogSd, nameof(tauLogSd));
        if (start >= limit) return new Band(0, 0, 0);
        if (limit >= settlesAt) return null;
        var mid = tauMid * Math.Log((settlesAt.Degrees - start.Degrees) / (settlesAt.Degrees - limit.Degrees));
        var spread = Math.Exp(Normal.EightyPercent * tauLogSd);
        return new Band(mid / spread, mid, mid * spread);
    }

    /// <summary>The temperature after some hours of warming: S - (S - T0) exp(-t / tau), °C.</summary>
    /// <param name="start">Water at the beginning, T0, °C.</param>
    /// <param name="hours">Hours since, 0 or more.</param>
    /// <param name="settlesAt">Where it settles, S, °C.</param>
    /// <param name="tau">Time constant, h; positive.</param>
    public static Celsius MostAfter(Celsius start, double hours, Celsius settlesAt, double tau)
    {
        Require.Positive(tau, nameof(tau));
        Require.NotNegative(hours, nameof(hours));
        return new(settlesAt.Degrees - ((settlesAt.Degrees - start.Degrees) * Math.Exp(-hours / tau)));
    }

    /// <summary>
    /// The smallest time constant that still passes for warming by the room: 0.4 times the middle, hours. A reading that would
    /// need a smaller one is doubtful. No source: chosen so that observed failures at 2 °F an hour pass.
    /// </summary>
    /// <param name="litres">Water volume, L; positive.</param>
    /// <param name="jacket">Bare glass or foam.</param>
    public static double FastestCredibleTau(Litres litres, Jacket jacket) => 0.4 * TimeConstant(litres, jacket).MidHours;

    /// <summary>
    /// What is believed of tau after readings since the cooling stopped; see <see cref="TauLearning"/> for the rule. Fewer than
    /// two readings leave the prior as it is.
    /// </summary>
    /// <param name="priorMid">Median of tau before, h; positive.</param>
    /// <param name="priorLogSd">Standard deviation of ln tau before; positive.</param>
    /// <param name="readings">Hours on one clock and water temperature, °C, in any order.</param>
    /// <param name="settlesAt">Where the water settles, S, °C.</param>
    /// <param name="thermometerSd">Standard deviation of one reading's own error, °C; positive. A constant thermometer error
    /// hardly matters here.</param>
    /// <returns>Median, h, and standard deviation of ln tau.</returns>
    public static (double MidHours, double LogSd) UpdateTau(
        double priorMid, double priorLogSd, IReadOnlyList<(double Hours, Celsius Water)> readings, Celsius settlesAt,
        double thermometerSd)
    {
        Require.Positive(priorMid, nameof(priorMid));
        Require.Positive(priorLogSd, nameof(priorLogSd));
        Require.Positive(thermometerSd, nameof(thermometerSd));
        Require.Finite(settlesAt.Degrees, nameof(settlesAt));
        return readings.Count < 2
            ? (priorMid, priorLogSd)
            : TauLearning.Posterior((priorMid, priorLogSd), readings, settlesAt, thermometerSd);
    }

    /// <summary>
    /// Ice that holds the water where it is: 3.6 UA (R - T) / (334 + 4.19 T), kg an hour. 334 kJ/kg melts it and 4.19 kJ/(kg K)
    /// warms the melt to T. Nothing when the room is not warmer. Throws for a hold temperature under 0 °C. Source: textbook
    /// heat balance.
    /// </summary>
    /// <param name="wattsPerKelvin">Heat flow UA, W/K; 0 or more.</param>
    /// <param name="room">R, °C: the room, or where the water settles with its pump's heat.</param>
    /// <param name="hold">T, °C: the water temperature to hold, 0 or more.</param>
    public static double IceKgPerHour(double wattsPerKelvin, Celsius room, Celsius hold)
    {
        Require.NotNegative(wattsPerKelvin, nameof(wattsPerKelvin));
        Require.NotNegative(hold.Degrees, nameof(hold));
        Require.Finite(room.Degrees, nameof(room));
        return 3.6 * wattsPerKelvin * Math.Max(0, room.Degrees - hold.Degrees) / (334 + (4.19 * hold.Degrees));
    }
}
