namespace Tankside.Hatchery.Places;

/// <summary>A tank that takes part in a season, as its place was called when the season was set up: what has changed since can be told.</summary>
public sealed class SeasonTank
{
    public Guid SeasonId { get; init; }

    public Guid TankId { get; init; }

    public required string School { get; init; }

    public required string Room { get; init; }
}
