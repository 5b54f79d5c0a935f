namespace Tankside.Portal.Shell.Charts;

/// <summary>One week's mean, in hours.</summary>
/// <param name="Monday">The week's first local day.</param>
/// <param name="Tanks">How many tanks it is the mean of.</param>
public sealed record HoursOfWeek(DateOnly Monday, double Hours, int Tanks);
