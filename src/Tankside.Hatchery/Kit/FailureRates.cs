using Tankside.Science.Losses;

namespace Tankside.Hatchery.Kit;

/// <summary>How often kit of one make or batch failed at work.</summary>
/// <param name="Group">The make, or the batch.</param>
/// <param name="Pieces">Pieces that ever stood in a tank.</param>
/// <param name="TankWeeks">Weeks that they worked in tanks, together.</param>
/// <param name="Failures">Times that a working piece stopped working in a tank.</param>
/// <param name="PerSeason">Failures of one piece in a season, with the exact 95% interval; null where nothing has worked in a tank yet.</param>
public sealed record FailureRate(KitKind Kind, string Group, int Pieces, double TankWeeks, int Failures, (double Mid, double Low, double High)? PerSeason);

/// <summary>
/// Which makes and batches fail. Failures over the weeks that pieces worked in tanks, with Garwood's exact Poisson interval; weeks at a depot,
/// in repair, or faulty do not count, nor do failures there.
/// </summary>
public static class FailureRates
{
    private const double DaysAWeek = 7;

    /// <param name="groupOf">The make or the batch; a piece with none is left out.</param>
    /// <param name="acts">The whole history of every piece, in any order.</param>
    /// <param name="seasonWeeks">Weeks of work in a season, above 0.</param>
    public static IReadOnlyList<FailureRate> Of(
        IReadOnlyList<KitItem> items, IEnumerable<KitAct> acts, Func<KitItem, string?> groupOf, double seasonWeeks, DateTime now)
    {
        var histories = acts.ToLookup(a => a.ItemId);
        return
        [
            .. items.Select(i => (Item: i, Group: groupOf(i), Spell: WorkOf(histories[i.Id], now)))
                .Where(i => !string.IsNullOrWhiteSpace(i.Group) && i.Spell.Worked)
                .GroupBy(i => (i.Item.Kind, i.Group))
                .Select(g => Rate(g.Key.Kind, g.Key.Group!, g.Count(), g.Sum(i => i.Spell.Weeks), g.Sum(i => i.Spell.Failures), seasonWeeks))
                .OrderBy(r => r.Kind).ThenByDescending(r => r.PerSeason?.Mid ?? -1).ThenBy(r => r.Group, StringComparer.Ordinal),
        ];
    }

    private static FailureRate Rate(KitKind kind, string group, int pieces, double weeks, int failures, double seasonWeeks)
    {
        var scale = seasonWeeks / weeks;
        var (low, high) = Poisson.Interval(failures);
        return new FailureRate(
            kind, group, pieces, weeks, failures, weeks > 0 ? (failures * scale, low * scale, high * scale) : null);
    }

    private static (bool Worked, double Weeks, int Failures) WorkOf(IEnumerable<KitAct> history, DateTime now)
    {
        var (weeks, failures, worked) = (0.0, 0, false);
        DateTime? since = null;
        foreach (var act in history.OrderBy(a => a.Number))
        {
            if (since is { } began)
            {
                weeks += Weeks(began, act.At);
                failures += act.IsFailure ? 1 : 0;
            }

            since = act.ToPlace == KitPlace.Tank && act.After == KitCondition.Working ? act.At : null;
            worked |= since is not null;
        }

        return (worked, weeks + (since is { } still ? Weeks(still, now) : 0), failures);
    }

    /// <summary>An act entered late may lie before the one before; that is no time at work.</summary>
    private static double Weeks(DateTime from, DateTime to) => Math.Max(0, (to - from).TotalDays / DaysAWeek);
}
