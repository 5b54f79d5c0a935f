namespace Tankside.Portal.Releases.Permits;

/// <summary>What a person types after letting fish go.</summary>
public sealed class ReleaseForm
{
    /// <summary>Made when the page is shown, so that the form sent twice is one release.</summary>
    public Guid Id { get; set; }

    public string? Tank { get; set; }

    public string? Site { get; set; }

    public string? Permit { get; set; }

    public string? Day { get; set; }

    public string? Time { get; set; }

    public string? Fish { get; set; }

    public bool About { get; set; }

    public string? TankTemperature { get; set; }

    public string? StreamTemperature { get; set; }

    public string? Unit { get; set; }

    public string? Note { get; set; }

    /// <summary>The last fish are out: close the tank with it.</summary>
    public bool EmptiesTank { get; set; }
}
