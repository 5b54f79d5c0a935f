namespace Tankside.Portal.Shell.Charts;

/// <summary>The dead removed on one day.</summary>
/// <param name="Day">The programme's local day.</param>
/// <param name="Removed">How many; 0 is a count, null means that nobody counted.</param>
/// <param name="Expected">How many this tank's own past and stage would make ordinary; null for no expectation.</param>
public sealed record LossDay(DateOnly Day, int? Removed, double? Expected = null);

/// <summary>The words of the loss chart.</summary>
public sealed record LossWords
{
    public string Removed { get; init; } = "dead removed a day";

    public string Expected { get; init; } = "expected";

    public string NotCounted { get; init; } = "not counted";

    public string Nothing { get; init; } = "Nothing counted yet.";

    public string Table { get; init; } = "The losses as a table";

    public string Day { get; init; } = "Day";
}
