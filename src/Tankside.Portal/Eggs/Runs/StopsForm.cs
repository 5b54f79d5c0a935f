namespace Tankside.Portal.Eggs.Runs;

/// <summary>The tanks that were ticked.</summary>
public sealed class StopsForm
{
    public List<Guid>? Tanks { get; set; }
}
