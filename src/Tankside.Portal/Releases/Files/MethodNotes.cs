namespace Tankside.Portal.Releases.Files;

/// <summary>How the account was made, in the words that go with it to the agency.</summary>
public static class MethodNotes
{
    public static IReadOnlyList<string> All { get; } =
    [
        "In every row: eggs received + transferred in = dead on arrival + egg, alevin and fry losses + put down + sampled + transferred out + released + still in tank + unaccounted.",
        "Unaccounted is what no entry explains: eaten, dissolved, or miscounted at the start. It may be negative, which means that more were counted out than in. It is never spread over other columns.",
        "Survival from egg to release is released divided by eggs received + transferred in − transferred out. Dead on arrival count as received. It is blank while fish are in the tank.",
        "Over several tanks it is the sum over the sum of the same tanks, finished ones only, never the mean of their percentages. Beside it stands what it would be if the unfinished tanks released nothing more, and if they ended like the finished ones.",
        "Intervals are 95 % Wilson score intervals. They take every fish as its own case; fish in one tank live or die together, so the true spread is wider.",
        "Releases were counted into the stream, not worked out by subtraction. A number given as “about” is marked so in the ledger.",
        "What died stands with its tank, not with a site: one tank’s fish may go to two sites. Sites and permits show what was released.",
    ];
}
