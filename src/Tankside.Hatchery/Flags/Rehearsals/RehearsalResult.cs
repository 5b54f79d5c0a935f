namespace Tankside.Hatchery.Flags.Rehearsals;

/// <summary>What became of one tank of a worked morning.</summary>
/// <param name="Place">Place at which it was called, from 1; null when it was not.</param>
/// <param name="Saved">Fish that the call saved.</param>
/// <param name="BestPlace">Its place in the best order; null for a tank without trouble.</param>
/// <param name="BestSaved">Fish that the call saves there.</param>
/// <param name="RoundPlace">Its place in the round's own order; null for a tank without trouble.</param>
public sealed record WorkedTank(MadeUpTank Tank, int? Place, double Saved, int? BestPlace, double BestSaved, int? RoundPlace)
{
    /// <summary>Less than this many fish is no difference anybody should be told about.</summary>
    public const double Worth = 0.5;

    /// <summary>Fish that it cost to call later than the best order does, or not at all; below zero where it was called sooner.</summary>
    public double Cost => BestSaved - Saved;

    /// <summary>It was called, but so late that it cost fish.</summary>
    public bool TooLate => Place > BestPlace && Cost >= Worth;

    /// <summary>A call for a tank that needed none: its minutes went from those behind it.</summary>
    public bool Idle => Place is not null && BestPlace is null;
}

/// <summary>A worked morning against the best that could be done with it.</summary>
/// <param name="Tanks">Those in trouble in the best order, then the idle calls as they were made.</param>
public sealed record RehearsalResult(double Saved, double Best, double Round, CallOrders Orders, IReadOnlyList<WorkedTank> Tanks)
{
    public static RehearsalResult Of(MadeUpMorning morning, IReadOnlyList<string> called, double minutesACall)
    {
        var orders = new CallOrders(morning, minutesACall);
        var (best, round) = (orders.Best(), orders.OfRound());
        var tanks = best.Concat(called.Except(best)).Select(code =>
        {
            var tank = morning.Find(code)!;
            var (place, bestPlace) = (PlaceIn(called, code), PlaceIn(best, code));
            return new WorkedTank(
                tank, place, place is { } at ? orders.Saved(tank, at) : 0, bestPlace, bestPlace is { } to ? orders.Saved(tank, to) : 0, PlaceIn(round, code));
        });
        return new RehearsalResult(orders.Saved(called), orders.Saved(best), orders.Saved(round), orders, [.. tanks]);
    }

    private static int? PlaceIn(IReadOnlyList<string> order, string code) => order.Index().FirstOrDefault(c => c.Item == code) is { Item: not null } found ? found.Index + 1 : null;
}
