namespace Tankside.Storage;

/// <summary>A kind of thing that people set, and how the record of changes tells it.</summary>
public sealed class AuditedKind
{
    public required Type Type { get; init; }

    /// <summary>Its id, or the key of a setting.</summary>
    public required Func<object, string> Which { get; init; }

    /// <summary>What it is called; never a person's name, address or number.</summary>
    public required Func<object, string> Name { get; init; }

    /// <summary>The programme it belongs to; null when it belongs to none yet.</summary>
    public required Func<HatcheryDb, object, ValueTask<Guid?>> Programme { get; init; }

    /// <summary>The person it is about.</summary>
    public Func<object, Guid?> About { get; init; } = _ => null;

    /// <summary>Fields that nobody sets, or whose changes would tell nothing.</summary>
    public IReadOnlySet<string> Left { get; init; } = new HashSet<string>();

    /// <summary>Fields of which only is told that they changed: numbers and names of people, secrets.</summary>
    public IReadOnlySet<string> Withheld { get; init; } = new HashSet<string>();

    /// <summary>True when only these fields are told, whatever else is added to the class.</summary>
    public bool OnlyWithheld { get; init; }

    /// <summary>What holds while there is no such row; null where nothing does.</summary>
    public Func<object, string, object?>? WithoutRow { get; init; }
}
