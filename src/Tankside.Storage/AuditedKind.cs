namespace Tankside.Storage;

/// <summary>A kind of thing that people set, and how the record of changes tells it.</summary>
public sealed class AuditedKind
{
    public required Type Type { get; init; }

    /// <summary>Its id, or the key of a setting.</summary>
    public required Func<object, string> Which { get; init; }

    /// <summary>What it is called; never a person's name, address or number.</summary>
    public required Func<object, string> Name { get; init; }

    /// <summary>The programme it belongs to; none when it belongs to none yet, several for a person who is in several.</summary>
    public required Func<HatcheryDb, object, ValueTask<IReadOnlyList<Guid>>> Programmes { get; init; }

    /// <summary>The person it is about.</summary>
    public Func<object, Guid?> About { get; init; } = _ => null;

    /// <summary>Fields that nobody sets, or whose changes would tell nothing.</summary>
    public IReadOnlySet<string> Left { get; init; } = new HashSet<string>();

    /// <summary>Fields of which only is told that they changed: numbers and names of people, secrets.</summary>
    public IReadOnlySet<string> Withheld { get; init; } = new HashSet<string>();

    /// <summary>True when only these fields, and those <see cref="Told"/>, are told, whatever else is added to the class.</summary>
    public bool OnlyWithheld { get; init; }

    /// <summary>Fields told with their values where <see cref="OnlyWithheld"/> holds.</summary>
    public IReadOnlySet<string> Told { get; init; } = new HashSet<string>();

    /// <summary>What holds while there is no such row; null where nothing does.</summary>
    public Func<object, string, object?>? WithoutRow { get; init; }
}
