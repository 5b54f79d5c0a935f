namespace Tankside.Portal.Eggs.Runs;

/// <summary>The tanks that were ticked.</summary>
public sealed class StopsForm
{
    /// <summary>Eggs for tanks that are a no-go go to the holding tank.</summary>
    public bool NoGoToHolding { get; set; }

    public List<Guid>? Tanks { get; set; }
}
