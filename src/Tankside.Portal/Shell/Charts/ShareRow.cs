namespace Tankside.Portal.Shell.Charts;

/// <summary>One whole, cut into parts.</summary>
/// <param name="Said">The row in words, beside its name.</param>
/// <param name="Parts">Shares of the whole in the order of the chart's names for them; what reaches beyond the whole is cut off and has to be said.</param>
/// <param name="Low">Low end of the first part's interval, as a share; null where it has none.</param>
/// <param name="High">Its high end.</param>
public sealed record ShareRow(string Name, string Said, IReadOnlyList<double> Parts, double? Low, double? High);
