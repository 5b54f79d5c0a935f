using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;

namespace Tankside.Portal.Readings;

/// <summary>A temperature as somebody typed or sent it.</summary>
public sealed record TypedWater(string Text, double Value, TemperatureUnit Unit, string Field);

/// <summary>A reading on its way in, from whichever door. Its tank is known and the sender may write to it.</summary>
public sealed record IncomingReading
{
    public required Guid SenderId { get; init; }

    public required Guid TankId { get; init; }

    /// <summary>When it was read, UTC, as sent.</summary>
    public required DateTime At { get; init; }

    /// <summary>What was seen, without the water temperature, which is judged from <see cref="Water"/>.</summary>
    public required Observation Seen { get; init; }

    public TypedWater? Water { get; init; }

    public Guid? Corrects { get; init; }

    public required ReadingSource Source { get; init; }

    public Guid? EnteredBy { get; init; }

    /// <summary>Who says that a doubtful temperature is right as it stands; null when nobody was asked yet.</summary>
    public string? ConfirmedBy { get; init; }

    /// <summary>The import whose sheet it stands in.</summary>
    public Guid? ImportId { get; init; }
}

/// <summary>What became of one reading.</summary>
public abstract record IntakeOutcome
{
    /// <summary>Stored, committed, and on its way to be judged.</summary>
    public sealed record Accepted(Reading Reading) : IntakeOutcome;

    /// <summary>The very same reading was stored before; nothing changed.</summary>
    public sealed record Duplicate(Guid SenderId) : IntakeOutcome;

    /// <summary>Stored unjudged; a person has to say what was meant.</summary>
    public sealed record Asked(Reading Reading, string Field, string Typed, double Understood, TemperatureUnit UnderstoodUnit, Doubt Doubt) : IntakeOutcome;

    /// <summary>Not stored; each field with what is wrong with it.</summary>
    public sealed record Rejected(IReadOnlyDictionary<string, string[]> Errors) : IntakeOutcome
    {
        public Rejected(string field, string error)
            : this(new Dictionary<string, string[]> { [field] = [error] })
        {
        }
    }
}
