namespace Tankside.Portal.Shell.Charts;

/// <summary>One tank of a lot.</summary>
/// <param name="Name">School and tank, as a person would say it.</param>
/// <param name="InTrouble">True when a flag is open for it.</param>
/// <param name="Href">The tank's page.</param>
public sealed record LotTank(string Name, bool InTrouble, string? Href = null);
