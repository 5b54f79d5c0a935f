namespace Tankside.Hatchery.People;

/// <summary>A regional school-hatchery programme: the body that holds the permits and answers for every egg.</summary>
public sealed class Programme
{
    public Guid Id { get; init; }

    public required string Name { get; set; }

    /// <summary>IANA time zone; the programme's local day comes from here, never from the server.</summary>
    public required string TimeZone { get; set; }

    /// <summary>The unit that adults' screens show first. Classes choose their own, tank by tank.</summary>
    public TemperatureUnit ScreenUnit { get; set; } = TemperatureUnit.F;

    /// <summary>Local time at which the morning digest goes out.</summary>
    public TimeOnly DigestAt { get; set; } = new(6, 30);

    public int Version { get; set; }
}

/// <summary>A threshold, deadline or rate that this programme has set differently from its published default.</summary>
public sealed class ProgrammeSetting
{
    public Guid ProgrammeId { get; init; }

    public required string Key { get; init; }

    public double Value { get; set; }

    public int Version { get; set; }
}

/// <summary>The scale a thermometer is read on.</summary>
public enum TemperatureUnit
{
    C,
    F,
}
