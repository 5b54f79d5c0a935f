using Tankside.Hatchery.Flags;

namespace Tankside.Portal.Flags;

/// <summary>Reasons about the season's dates and its account.</summary>
public sealed partial class ReasonWords
{
    private string EarlyHatch(EarlyHatchEvidence e) =>
        $"Hatch was seen {Day(e.SeenOn)}, {Days(e.Low95.DayNumber - e.SeenOn.DayNumber)} before half could be due ({Day(e.Low95)} at the earliest, {Day(e.Mid)} most likely): the dates of this tank are off; {Fish}.";

    private string Feeding(FeedingEvidence e)
    {
        var swimUp = e.Seen
            ? $"Swim-up was seen {Day(e.Mid)}"
            : $"Swim-up is due about {Day(e.Mid)} ({Day(e.Low80)} to {Day(e.High80)}), with a chance of {Number(e.Chance * 100, "0")}% too near to the break";
        return $"{swimUp}: first feeding needs to begin before {Day(e.From)} or after {Day(e.BreakLast)}, school is closed from {Day(e.BreakFirst)} to {Day(e.BreakLast)}; {Fish}.";
    }

    private string Readiness(ReadinessEvidence e)
    {
        var why = (e.Why, e.WaterC, e.At, e.Since) switch
        {
            (Unready.Unread, { } w, { } at, _) => $"nothing read since {When(at)} ({Degrees(w)})",
            (Unready.Unread, _, _, _) => "no temperature was ever read",
            (Unready.NotProved, { } w, _, { } since) => $"at its set point only since {When(since)}, now {Degrees(w)}",
            (_, { } w, { } at, _) => $"{Degrees(w)} at {When(at)} with the set point at {Degrees(e.SetPointC)}",
            _ => $"the set point is {Degrees(e.SetPointC)}",
        };
        return $"Not ready for {Count(e.Eggs, "egg")} due {Day(e.DueOn)}: {why}.";
    }

    private static string Tally(TallyEvidence e)
    {
        var after = e.Closed ? "The tank is closed" : e.CountedAt is null ? "By its ledger" : "After the count";
        return e.Unaccounted < 0
            ? $"{after}: {Number(-e.Unaccounted, "#,0")} more {(e.Unaccounted == -1 ? "is" : "are")} counted out and in the tank than the {Number(e.Came, "#,0")} that came. Look for a line entered twice, or a delivery not entered."
            : $"{after}: {Number(e.Unaccounted, "#,0")} of {Number(e.Came, "#,0")} {(e.Unaccounted == 1 ? "is" : "are")} unaccounted, {Number(100.0 * e.Unaccounted / e.Came, "0")}% where counting errs by {Number(e.Limit * 100, "0")}%. Look for losses, a move or a release not entered.";
    }
}
