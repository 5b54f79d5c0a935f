namespace Tankside.Portal.Shell.Charts;

/// <summary>When a forecast fan meets the limit: the fast course first, the slow course last.</summary>
/// <param name="Earliest">When the fast course reaches the limit.</param>
/// <param name="Latest">When the slow course does, or null when it doesn't within the forecast.</param>
/// <param name="Rising">True for warming towards an upper limit, false for cooling towards a lower one.</param>
internal sealed record FanCrossing(DateTime Earliest, DateTime? Latest, bool Rising)
{
    /// <summary>Null when even the fast course stays on the safe side; for warming and for cooling.</summary>
    public static FanCrossing? Of(IReadOnlyList<FanPoint> fan, double limitC)
    {
        if (fan.Count < 2) return null;
        var rising = fan[^1].MidC >= fan[0].MidC;
        var fast = Meets(fan, point => rising ? point.HighC : point.LowC, limitC, rising);
        return fast is null
            ? null
            : new(fast.Value, Meets(fan, point => rising ? point.LowC : point.HighC, limitC, rising), rising);
    }

    private static DateTime? Meets(IReadOnlyList<FanPoint> fan, Func<FanPoint, double> course, double limitC, bool rising)
    {
        for (var i = 0; i < fan.Count; i++)
        {
            var here = course(fan[i]);
            if (rising ? here < limitC : here > limitC) continue;
            if (i == 0) return fan[0].At;
            var before = course(fan[i - 1]);
            var part = Math.Abs(here - before) < 1e-9 ? 0 : (limitC - before) / (here - before);
            return fan[i - 1].At + (fan[i].At - fan[i - 1].At) * part;
        }

        return null;
    }
}
