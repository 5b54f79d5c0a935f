using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Places;
using Tankside.Portal.Places;

namespace Tankside.Portal.Flags;

/// <summary>Words for what is known, and not known, of tanks in a marked area.</summary>
public sealed partial class ReasonWords
{
    private string PowerCut(PowerCutEvidence e)
    {
        if (e.BackAt is { } back)
        {
            return $"Power is back since {When(back)} after {Span(e.Since, back)}, and nobody has seen this tank since it went: is the pump primed, is the chiller on its set point?"
                + $" Last reading {LastSeen(e.LastAt, e.LastWaterC, e.LastMoving)}; {Stage(e.Stage)}; {Fish}.";
        }

        var expected = e.ExpectedBack is { } until ? until > now ? $", expected back {When(until)}" : $", expected back by {When(until)}" : "";
        return $"{Said(e)} since {When(e.Since)}{expected}, not seen since; {Stage(e.Stage)}{TimeLeft(e)}; last reading {LastSeen(e.LastAt, e.LastWaterC, e.LastMoving)}; {Fish}.";
    }

    private string Said(PowerCutEvidence e) => e.Word switch
    {
        { Answer: SweepAnswer.Trouble, At: var at } => $"The school said at {When(at)} that there is trouble; no power",
        { Answer: SweepAnswer.PowerOff, At: var at } when at > e.Since => $"The school said at {When(at)} that the power is off; no power",
        { Answer: SweepAnswer.PowerOff } => "The school says that it has no power,",
        _ => "No power",
    };

    /// <summary>The loss that comes first is told with its range, whose near end is the time to act by; of the other only the middle.</summary>
    private string TimeLeft(PowerCutEvidence e)
    {
        var (air, heat) = ("air is short", $"{Degrees(e.HeatLimit)} is passed");
        var (first, then) = e.AirFirst ? (air, heat) : (heat, air);
        return (e.PassesAt is { } at ? $"; {Passes(at, first)}" : "")
            + ((e.AirFirst ? e.HeatPassesAt : e.AirPassesAt) is { } later ? $"; {then} about {When(later.Mid)}" : "");
    }

    private string Passes(PassTimes at, string what) =>
        at.High <= now ? $"{what} since {When(at.Mid)} or so"
        : at.Low <= now ? $"{what} perhaps already, or about {When(at.Mid)}"
        : $"{what} between {When(at.Low)} and {When(at.High)}, act by {When(at.Low)}";

    private string TroubleSaid(TroubleSaidEvidence e) =>
        $"The school answered at {When(e.At)} that there is trouble ({SweepWords.Of(e.Reason)} since {When(e.MarkedAt)}): ring to hear what; {Stage(e.Stage)}; last reading {LastSeen(e.LastAt, e.LastWaterC, null)}; {Fish}.";

    private string Shut(ShutEvidence e) =>
        $"Shut by {SweepWords.Of(e.Reason)} since {When(e.Since)}: nobody is late, but {Days(e.Days)} that were to be school days are unread{(e.LastWasFlagged ? " after a bad reading" : "")}. Who may go in? "
        + $"Last reading {LastSeen(e.LastAt, e.LastWaterC, null)}; {Stage(e.Stage)}; {Fish}.";

    private string LastSeen(DateTime? at, double? waterC, bool? moving)
    {
        if (at is not { } seen)
        {
            return "none since the eggs came";
        }

        var flow = moving switch { true => ", water moving", false => ", water still", null => "" };
        return $"{When(seen)}{(waterC is { } w ? $" ({Degrees(w)}{flow})" : flow)}";
    }

    private static string Span(DateTime from, DateTime to) => (to - from).TotalHours is var hours && hours < 1.5
        ? $"{Number((to - from).TotalMinutes, "0")} minutes"
        : $"{Number(hours, hours < 10 ? "0.#" : "0")} hours";
}
