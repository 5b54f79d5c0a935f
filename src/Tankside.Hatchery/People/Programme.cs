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

    /// <summary>Who has to have a second step of sign-in.</summary>
    public StepDemand SecondStepFor { get; set; }

    public int Version { get; set; }

    public bool DemandsStepOf(Role role) => SecondStepFor switch
    {
        StepDemand.Nobody => false,
        StepDemand.Leads => role is Role.ProgrammeLead,
        StepDemand.LeadsAndCoordinators => role is Role.ProgrammeLead or Role.Coordinator,
        StepDemand.Everybody => true,
    };
}

/// <summary>Of whom a programme demands a second step of sign-in; each holds those before it.</summary>
public enum StepDemand
{
    Nobody,
    Leads,
    LeadsAndCoordinators,
    Everybody,
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
