using System.Globalization;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;

namespace Tankside.Portal.Readings;

/// <summary>
/// What was typed into the form of a reading, as text, with what could not be read. The text is what the form shows again, so that nothing
/// typed is lost. Fields are named like the API's, the temperature "water" with "unit" F or C.
/// </summary>
public sealed class ReadingFormInput
{
    private readonly Dictionary<string, string> values = new(StringComparer.Ordinal);

    /// <summary>Messages by field; empty when everything could be read.</summary>
    public Dictionary<string, string> Errors { get; } = new(StringComparer.Ordinal);

    /// <summary>The language that the form and its messages are in.</summary>
    public ClassWords Words { get; private init; } = ClassWords.English;

    public Guid Id { get; private set; }

    public Observation Seen { get; private set; } = new();

    public TypedWater? Water { get; private set; }

    /// <summary>The text of a field as typed; empty when it was left out.</summary>
    public string this[string field] => values.GetValueOrDefault(field, "");

    /// <summary>True when anything under "more to tell" was filled in or went wrong, so that it is shown open.</summary>
    public bool TellsMore => FoldedFields.Any(f => this[f].Length > 0 || Errors.ContainsKey(f));

    /// <summary>Fields that the form keeps folded.</summary>
    public static readonly string[] FoldedFields =
    [
        "hatched", "swimming", "fed", "chillerRunning", "iceOnCoil", "fungus", "gasping", "roomTemperature", "ph", "ammoniaTotalMgL",
        "nitriteMgL", "oxygenMgL", "chlorineMgL", "waterChangedPercent", "note",
    ];

    /// <param name="unit">The scale that stands chosen; null where the tank is not known.</param>
    public static ReadingFormInput Empty(Guid id, TemperatureUnit? unit, ClassWords? words = null)
    {
        var form = new ReadingFormInput { Id = id, Words = words ?? ClassWords.English };
        form.values["unit"] = unit?.ToString() ?? "";
        return form;
    }

    /// <summary>A stored reading in the form again, to be corrected: as it was typed, where it was typed.</summary>
    public static ReadingFormInput Correcting(Reading reading, Guid id, TemperatureUnit usual, ClassWords words)
    {
        var form = Empty(id, reading.TypedUnit ?? usual, words);
        var seen = reading.Seen;
        (string Field, object? Value)[] fields =
        [
            ("corrects", reading.SenderId),
            ("water", reading.TypedWater is { } typed ? typed : seen.WaterC is { } c ? Math.Round(WaterTemperature.FromC(c, usual), 1) : null),
            ("moving", seen.Moving), ("bubbles", seen.Bubbles), ("levelOk", seen.LevelOk), ("clear", seen.Clear),
            ("chillerRunning", seen.ChillerRunning), ("iceOnCoil", seen.IceOnCoil), ("fed", seen.Fed), ("fungus", seen.Fungus), ("gasping", seen.Gasping),
            ("deadEggs", seen.DeadEggs), ("deadAlevins", seen.DeadAlevins), ("deadFry", seen.DeadFry), ("hatched", seen.Hatched), ("swimming", seen.Swimming),
            ("roomTemperature", seen.RoomC is { } room ? Math.Round(WaterTemperature.FromC(room, reading.TypedUnit ?? usual), 1) : null),
            ("ph", seen.Ph), ("ammoniaTotalMgL", seen.AmmoniaTotalMgL), ("nitriteMgL", seen.NitriteMgL), ("oxygenMgL", seen.OxygenMgL),
            ("chlorineMgL", seen.ChlorineMgL), ("waterChangedPercent", seen.WaterChangedPercent), ("note", seen.Note),
        ];
        foreach (var (field, value) in fields)
        {
            form.values[field] = value switch
            {
                null => "",
                bool yes => yes ? "true" : "false",
                Share share => share.ToString().ToLowerInvariant(),
                IFormattable number => number.ToString(null, CultureInfo.InvariantCulture),
                _ => value.ToString()!,
            };
        }

        return form;
    }

    /// <summary>The sender's id of the reading that this one corrects; null for a new one.</summary>
    public Guid? Corrects => Guid.TryParse(this["corrects"], out var id) ? id : null;

    /// <param name="fields">The posted form.</param>
    /// <param name="newId">Used when the form carries no id of its own.</param>
    /// <param name="words">The language of its messages; English when left out.</param>
    /// <param name="usual">The tank's scale, for a form that names none.</param>
    public static ReadingFormInput Read(IFormCollection fields, Guid newId, TemperatureUnit usual, ClassWords? words = null)
    {
        var form = new ReadingFormInput { Id = Guid.TryParse(fields["id"], out var id) ? id : newId, Words = words ?? ClassWords.English };
        foreach (var (name, value) in fields)
        {
            form.values[name] = value.ToString().Replace("\0", "", StringComparison.Ordinal).Trim(); // No keyboard makes a NUL, and no database keeps one.
        }

        form.ReadWater(usual);
        form.ReadObservation();
        if (form.Errors.Count == 0 && form.Water is null && form.Seen.IsEmpty)
        {
            form.Errors["water"] = form.Words["error.nothing"];
        }

        return form;
    }

    /// <summary>
    /// True when two answers contradict each other and nobody has said yet that both are right: it is asked, and stands as typed. What the
    /// outbox sends has nobody before it who could look again; it is stored, and the coordinator asks.
    /// </summary>
    public bool AsksAboutContradictions => this["sure"].Length == 0 && this["again"].Length == 0 && Contradictions.In(Seen).Count > 0;

    /// <summary>The questions about them, in the language of the form.</summary>
    public IEnumerable<string> ContradictionQuestions => Contradictions.In(Seen).Select(c => Words.Of("contradict", Words[c.One], Words[c.Other]));

    /// <summary>The same form as a reading of its own; it says which one it stands in for.</summary>
    public ReadingFormInput WithId(Guid id)
    {
        values["instead"] = Id.ToString();
        Id = id;
        return this;
    }

    /// <summary>How long the reading waited on the device before it was sent. Both times are the device's own, so that a wrong clock does not matter.</summary>
    public TimeSpan Waited =>
        long.TryParse(this["typedAt"], NumberStyles.None, CultureInfo.InvariantCulture, out var typed)
        && long.TryParse(this["sentAt"], NumberStyles.None, CultureInfo.InvariantCulture, out var sent)
        && sent - typed is > 0 and < LongestWait
            ? TimeSpan.FromMilliseconds(sent - typed)
            : TimeSpan.Zero;

    /// <summary>Half a year in milliseconds: longer than a device lies in a cupboard within one season.</summary>
    private const long LongestWait = 183L * 24 * 3600 * 1000;

    private void ReadWater(TemperatureUnit usual)
    {
        var unit = this["unit"] switch
        {
            "F" => TemperatureUnit.F,
            "C" => TemperatureUnit.C,
            _ => usual,
        };
        values["unit"] = unit.ToString();
        if (this["water"].Length == 0)
        {
            return;
        }

        if (!WaterTemperature.TryRead(this["water"], out var value, out var written))
        {
            Errors["water"] = Words["error.number"];
            return;
        }

        // A scale written beside the number wins over the switch, which may only be where it was left.
        Water = new TypedWater(this["water"], value, written ?? unit, "water");
    }

    private void ReadObservation()
    {
        Seen = new Observation
        {
            Moving = YesNo("moving"),
            Bubbles = YesNo("bubbles"),
            LevelOk = YesNo("levelOk"),
            Clear = YesNo("clear"),
            ChillerRunning = YesNo("chillerRunning"),
            IceOnCoil = YesNo("iceOnCoil"),
            Fed = YesNo("fed"),
            Fungus = YesNo("fungus"),
            Gasping = YesNo("gasping"),
            DeadEggs = Count("deadEggs"),
            DeadAlevins = Count("deadAlevins"),
            DeadFry = Count("deadFry"),
            Hatched = ShareOf("hatched"),
            Swimming = ShareOf("swimming"),
            RoomC = Room(),
            Ph = Number("ph"),
            AmmoniaTotalMgL = Number("ammoniaTotalMgL"),
            NitriteMgL = Number("nitriteMgL"),
            OxygenMgL = Number("oxygenMgL"),
            ChlorineMgL = Number("chlorineMgL"),
            WaterChangedPercent = Number("waterChangedPercent"),
            Note = this["note"].Length > 0 ? this["note"] : null,
        };
        foreach (var refusal in ObservationRules.Check(Seen))
        {
            var field = refusal.Field == "roomC" ? "roomTemperature" : refusal.Field;
            Errors.TryAdd(field, refusal.Rule == FieldRule.TooLong
                ? Words.Of("error.note", refusal.Most)
                : Words.Of("error.between", refusal.Least, refusal.Most));
        }
    }

    private double? Room() => Number("roomTemperature") is { } room
        ? Math.Round(WaterTemperature.ToC(room, this["unit"] == "F" ? TemperatureUnit.F : TemperatureUnit.C), 2)
        : null;

    private bool? YesNo(string field) => this[field] switch
    {
        "true" or "on" or "yes" => true,
        "false" or "no" => false,
        _ => null,
    };

    private Share? ShareOf(string field) => this[field] switch
    {
        "none" => Share.None,
        "some" => Share.Some,
        "half" => Share.Half,
        "most" => Share.Most,
        "all" => Share.All,
        _ => null,
    };

    private int? Count(string field)
    {
        if (this[field].Length == 0)
        {
            return null;
        }

        if (int.TryParse(this[field], NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var count))
        {
            return count;
        }

        Errors[field] = Words["error.count"];
        return null;
    }

    private double? Number(string field)
    {
        if (this[field].Length == 0)
        {
            return null;
        }

        var plain = this[field].Replace(',', '.');
        if (double.TryParse(plain, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var number))
        {
            return number;
        }

        Errors[field] = Words["error.number"];
        return null;
    }
}
