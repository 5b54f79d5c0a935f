using Tankside.Portal.Shell.Look;

namespace Tankside.Portal.Shell.Charts;

/// <summary>A moment of development with its interval.</summary>
/// <param name="Name">Its word, such as "hatch" or "swim-up", in the reader's language.</param>
/// <param name="Low">The near end of the interval.</param>
/// <param name="Mid">The likely day.</param>
/// <param name="High">The far end of the interval.</param>
/// <param name="Drawn">The drawing that stands over it, if any.</param>
public sealed record StageMark(string Name, DateOnly Low, DateOnly Mid, DateOnly High, Picture? Drawn = null);

/// <summary>The words of the development line.</summary>
public sealed record DevelopmentWords
{
    public string Today { get; init; } = "today";

    public string Closed { get; init; } = "school closed";

    public string Interval { get; init; } = "earliest to latest day";

    public string Table { get; init; } = "The dates as a table";

    public string Stage { get; init; } = "Stage";

    public string Earliest { get; init; } = "Earliest";

    public string Likely { get; init; } = "Likely";

    public string Latest { get; init; } = "Latest";
}
