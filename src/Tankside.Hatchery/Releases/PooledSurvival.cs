namespace Tankside.Hatchery.Releases;

/// <summary>
/// Egg to release over many tanks: the sum released by the finished ones over the sum that came to the same ones, never the mean of the
/// tanks' own percentages and never with eggs in the denominator whose end is not known yet.
/// </summary>
/// <param name="Finished">Tanks that received eggs or fish and hold none any more.</param>
/// <param name="Supplied">Tanks that received eggs or fish.</param>
/// <param name="Released">Fish released by the finished tanks.</param>
/// <param name="Of">Eggs and fish that came to the finished tanks, less what was moved out of them.</param>
/// <param name="Rate">Released / Of with its 95% Wilson interval; unknown until a tank has finished.</param>
/// <param name="IfRestLost">Percent over all supplied tanks if the others release nothing more.</param>
/// <param name="IfRestAverage">
/// Percent over all supplied tanks if the others end as the finished ones did; what they have released already counts at least.
/// </param>
public sealed record PooledSurvival(
    int Finished, int Supplied, int Released, int Of, Survival Rate, double? IfRestLost, double? IfRestAverage)
{
    /// <summary>Percent over all supplied tanks if every fish that is still in a tank is released; the true end lies between this and <see cref="IfRestLost"/>.</summary>
    public double? IfRestAllLive { get; private init; }

    public static PooledSurvival Over(IReadOnlyList<TankBalance> tanks)
    {
        var supplied = tanks.Where(t => t.In > 0).ToList();
        var finished = supplied.Where(t => t.StillInTank == 0).ToList();
        var done = TankBalance.SumOf(finished);
        var rest = TankBalance.SumOf(supplied.Where(t => t.StillInTank > 0));
        var (of, restOf) = (Came(done), Came(rest));
        var rate = Survival.EggToRelease(done);
        var all = of + restOf;
        double? lost = all > 0 ? 100.0 * (done.Released + rest.Released) / all : null;
        double? average = all > 0 && rate.Percent is { } percent
            ? ((of * percent) + Math.Max(restOf * percent, 100.0 * rest.Released)) / all
            : null;
        return new PooledSurvival(finished.Count, supplied.Count, done.Released, of, rate, lost, average)
        {
            IfRestAllLive = all > 0 ? 100.0 * (done.Released + rest.Released + rest.StillInTank) / all : null,
        };
    }

    private static int Came(TankBalance balance) => balance.In - balance.TransferredOut;
}
