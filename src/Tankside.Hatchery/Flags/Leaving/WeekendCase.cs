namespace Tankside.Hatchery.Flags.Leaving;

/// <summary>One way to leave a tank, and the share of its fish expected lost that way.</summary>
internal sealed record WeekendCase
{
    /// <summary>Moments tried in each stretch between two looks.</summary>
    private const int Moments = 48;

    public required Situation Situation { get; init; }

    public required UnwatchedTank Tank { get; init; }

    /// <summary>The last look before: a fault since then has not been seen yet.</summary>
    public required DateTime Since { get; init; }

    /// <summary>When somebody looks and acts, ascending; the last is after the stretch.</summary>
    public required IReadOnlyList<DateTime> Looks { get; init; }

    /// <summary>Hours of air of its own in a power failure, with a second air stone running; null without.</summary>
    public double? SpareAirHours { get; init; }

    /// <summary>Troubles open now.</summary>
    public required IReadOnlyList<Finding> Troubles { get; init; }

    /// <summary>Those that somebody does something about before the bell.</summary>
    public Func<FlagKind, bool> Settled { get; init; } = _ => false;

    /// <summary>What the calendar brings by itself: hatch and hunger.</summary>
    public required Coming Coming { get; init; }

    public bool LeftoversOut { get; init; }

    /// <summary>True when the fish spend the stretch in a watched tank elsewhere.</summary>
    public bool Moved { get; init; }

    private LimitSet Limits => Situation.Limits;

    public double ShareLost => Moved
        ? Limits[Flags.Limits.Leaving.MoveShare]
        : 1 - ((1 - LostToFaults) * (1 - LostToTroubles) * (1 - Coming.ShareLost(Looks)) * (1 - LostToFood));

    /// <summary>Chance that something stops from the last look before to the last of these.</summary>
    public double FaultChance => 1 - Math.Exp(-Limits[Flags.Limits.Losses.FaultPerHour] * Hours);

    private double Hours => Math.Max(0, (Looks[^1] - Since).TotalHours);

    /// <summary>
    /// Chance of a fault while nobody looks, by the base rate over those hours, times what is lost to it by the next look, averaged over
    /// all moments at which it may begin.
    /// </summary>
    private double LostToFaults
    {
        get
        {
            if (Hours == 0)
            {
                return 0;
            }

            var (from, sum) = (Since, 0.0);
            foreach (var look in Looks.Where(l => l > Since))
            {
                sum += MeanLoss(from, look) * (look - from).TotalHours / Hours;
                from = look;
            }

            return FaultChance * sum;
        }
    }

    private double MeanLoss(DateTime from, DateTime look)
    {
        var sum = 0.0;
        foreach (var fault in Enum.GetValues<LeaveFault>())
        {
            var part = Tank.Part(fault);
            for (var i = 0; i < Moments; i++)
            {
                sum += part * Tank.ShareLost(fault, from + ((look - from) * ((i + 0.5) / Moments)), look, SpareAirHours);
            }
        }

        return sum / Moments;
    }

    private double LostToTroubles => Dangers.ShareLost(Troubles.Select(t => (t.Kind, LostTo(t))));

    /// <summary>What a trouble takes till the end; from the first earlier look on, or at once where it is seen to, mostly nothing more.</summary>
    private double LostTo(Finding trouble)
    {
        var goesOn = 1 - Limits[Flags.Limits.Leaving.ActWorks];
        var end = trouble.Hazard.LostBy(Looks[^1]);
        if (Settled(trouble.Kind))
        {
            return end * goesOn;
        }

        var first = trouble.Hazard.LostBy(Looks[0]);
        return first + ((end - first) * goesOn);
    }

    private double LostToFood => Situation.Swims && !LeftoversOut ? Limits[Flags.Limits.Leaving.LeftFood] : 0;
}
