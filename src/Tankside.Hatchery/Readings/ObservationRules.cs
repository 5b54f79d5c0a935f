namespace Tankside.Hatchery.Readings;

/// <summary>A field that cannot be true, by the API's name for it, and the rule it breaks.</summary>
public sealed record FieldRefusal(string Field, FieldRule Rule, double Least, double Most);

/// <summary>The rules a single field can break.</summary>
public enum FieldRule
{
    OutOfRange,
    TooLong,
    NothingSeen,
    TooFarAhead,
    BeforeTheTank,
}

/// <summary>
/// What a field can possibly hold. The limits only keep out what cannot be (a pH of 15, a negative count); whether a value is good
/// for fish is judged elsewhere. One list serves form, API and import.
/// </summary>
public static class ObservationRules
{
    public const int LongestNote = 1000;

    /// <summary>A clock may run ahead by this much; the reading is then taken as now.</summary>
    public static readonly TimeSpan ClockSlack = TimeSpan.FromMinutes(10);

    /// <summary>More dead in one reading than any tank is ever given eggs.</summary>
    public const int MostDead = 100_000;

    public static IReadOnlyList<FieldRefusal> Check(Observation seen)
    {
        var refusals = new List<FieldRefusal>();
        Range("roomC", seen.RoomC, -30, 50);
        Range("deadEggs", seen.DeadEggs, 0, MostDead);
        Range("deadAlevins", seen.DeadAlevins, 0, MostDead);
        Range("deadFry", seen.DeadFry, 0, MostDead);
        Range("ph", seen.Ph, 0, 14);
        Range("ammoniaTotalMgL", seen.AmmoniaTotalMgL, 0, 100);
        Range("nitriteMgL", seen.NitriteMgL, 0, 100);
        Range("oxygenMgL", seen.OxygenMgL, 0, 30);
        Range("chlorineMgL", seen.ChlorineMgL, 0, 20);
        Range("waterChangedPercent", seen.WaterChangedPercent, 0, 100);
        if (seen.Note is { Length: > LongestNote })
        {
            refusals.Add(new FieldRefusal("note", FieldRule.TooLong, 0, LongestNote));
        }

        return refusals;

        void Range(string field, double? value, double least, double most)
        {
            if (value is { } v && !(v >= least && v <= most))
            {
                refusals.Add(new FieldRefusal(field, FieldRule.OutOfRange, least, most));
            }
        }
    }

    /// <summary>The time to store, or null when it lies further ahead than a wrong clock explains.</summary>
    public static DateTime? AcceptedTime(DateTime at, DateTime now) =>
        at <= now ? at : at <= now + ClockSlack ? now : null;
}
