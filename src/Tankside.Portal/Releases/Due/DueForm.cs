namespace Tankside.Portal.Releases.Due;

/// <summary>What was sent: a release's report, or a permit's nil report.</summary>
public sealed class DueForm
{
    public Guid Release { get; set; }

    public Guid Permit { get; set; }
}
