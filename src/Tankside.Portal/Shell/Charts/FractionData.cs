namespace Tankside.Portal.Shell.Charts;

/// <summary>The share of the way to a stage at the start of a day, with the interval that holds four times in five.</summary>
/// <param name="Low">Near 0 to above 1, as <paramref name="Mid"/> and <paramref name="High"/>.</param>
public sealed record FractionPoint(DateOnly Day, double Low, double Mid, double High);

/// <summary>The words of the chart of development.</summary>
public sealed record FractionWords
{
    public string SoFar { get; init; } = "so far";

    public string ToCome { get; init; } = "to come";

    public string Interval { get; init; } = "four times in five";

    public string Today { get; init; } = "today";

    public string Closed { get; init; } = "school closed";

    public string Nothing { get; init; } = "Nothing is reckoned yet.";

    public string Table { get; init; } = "Development as a table";

    public string Day { get; init; } = "Day";

    public string Done { get; init; } = "Done";

    public string Between { get; init; } = "Four times in five";
}
