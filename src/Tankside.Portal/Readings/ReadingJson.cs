using System.Globalization;
using System.Text.Json;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;

namespace Tankside.Portal.Readings;

/// <summary>A reading as JSON writes it, parsed but not judged. API and replay read the same fields the same way.</summary>
public sealed class ReadingJson
{
    /// <summary>Fields of one reading that are told wrong: whoever sends more of them sends something else.</summary>
    private const int MostErrors = 50;

    private static readonly Observation Nothing = new();

    private readonly Dictionary<string, string[]> errors = [];
    private readonly ProgrammeClock clock;

    private ReadingJson(ProgrammeClock clock) => this.clock = clock;

    public Guid? Id { get; private set; }

    public string? IdText { get; private set; }

    public string? Tank { get; private set; }

    /// <summary>UTC.</summary>
    public DateTime? At { get; private set; }

    /// <summary>UTC; only histories carry it.</summary>
    public DateTime? ReceivedAt { get; private set; }

    public Guid? Corrects { get; private set; }

    public TypedWater? Water { get; private set; }

    public Observation Seen { get; private set; } = Nothing;

    /// <summary>What is wrong, by field; empty when the reading could be read.</summary>
    public Dictionary<string, string[]> Errors => errors;

    /// <summary>The list of readings of a batch; null when the body is none.</summary>
    public static JsonElement? ListOf(JsonElement body)
    {
        try
        {
            return body.ValueKind == JsonValueKind.Object && body.TryGetProperty("readings", out var list) && list.ValueKind == JsonValueKind.Array ? list : null;
        }
        catch (InvalidOperationException)
        {
            return null; // The name of a field is half of a surrogate pair.
        }
    }

    /// <param name="ofHistory">True in a replay: no id is needed, and a time of arrival may be given.</param>
    public static ReadingJson Parse(JsonElement item, ProgrammeClock clock, bool ofHistory)
    {
        var reading = new ReadingJson(clock);
        if (item.ValueKind != JsonValueKind.Object)
        {
            reading.Wrong("reading", "Each reading must be an object.");
            return reading;
        }

        try
        {
            foreach (var property in item.EnumerateObject())
            {
                if (reading.errors.Count >= MostErrors)
                {
                    reading.Wrong("reading", $"More than {MostErrors} fields are wrong; the rest was not looked at.");
                    return reading;
                }

                reading.Take(property.Name, property.Value, ofHistory);
            }

            reading.CheckNeeded(item, ofHistory);
        }
        catch (InvalidOperationException)
        {
            // Half of a surrogate pair: JSON lets it through, text does not.
            reading.Wrong("reading", "Holds a text that is not valid Unicode.");
        }

        return reading;
    }

    private void CheckNeeded(JsonElement item, bool ofHistory)
    {
        Need("tank", Tank is null);
        Need("at", At is null);
        Need("id", Id is null && !ofHistory);

        void Need(string field, bool missing)
        {
            if (missing && !errors.ContainsKey(field))
            {
                Wrong(field, item.TryGetProperty(field, out _) ? "Must not be empty." : "Is missing.");
            }
        }
    }

    private void Take(string name, JsonElement value, bool ofHistory)
    {
        if (value.ValueKind == JsonValueKind.Null)
        {
            return;
        }

        switch (name)
        {
            case "id":
                IdText = value.ToString();
                Id = Uuid(name, value);
                break;
            case "corrects":
                Corrects = Uuid(name, value);
                break;
            case "tank":
                Tank = Text(name, value);
                break;
            case "at":
                At = Instant(name, value);
                break;
            case "receivedAt" when ofHistory:
                ReceivedAt = Instant(name, value);
                break;
            case "waterC":
                TakeWater(name, value, TemperatureUnit.C);
                break;
            case "waterF":
                TakeWater(name, value, TemperatureUnit.F);
                break;
            default:
                TakeObservation(name, value);
                break;
        }
    }

    private void TakeWater(string name, JsonElement value, TemperatureUnit unit)
    {
        if (Number(name, value) is not { } number)
        {
            return;
        }

        if (Water is not null)
        {
            Wrong(name, "Give waterC or waterF, not both.");
            return;
        }

        // A program may write a number with any number of digits; one that is longer than is kept is written anew.
        var text = value.GetRawText();
        Water = new TypedWater(text.Length <= WaterTemperature.LongestTyped ? text : number.ToString("R", CultureInfo.InvariantCulture), number, unit, name);
    }

    private void TakeObservation(string name, JsonElement value) => Seen = name switch
    {
        "roomC" => Seen with { RoomC = Number(name, value) },
        "moving" => Seen with { Moving = Bool(name, value) },
        "bubbles" => Seen with { Bubbles = Bool(name, value) },
        "levelOk" => Seen with { LevelOk = Bool(name, value) },
        "clear" => Seen with { Clear = Bool(name, value) },
        "chillerRunning" => Seen with { ChillerRunning = Bool(name, value) },
        "iceOnCoil" => Seen with { IceOnCoil = Bool(name, value) },
        "deadEggs" => Seen with { DeadEggs = Whole(name, value) },
        "deadAlevins" => Seen with { DeadAlevins = Whole(name, value) },
        "deadFry" => Seen with { DeadFry = Whole(name, value) },
        "hatched" => Seen with { Hatched = ShareOf(name, value) },
        "swimming" => Seen with { Swimming = ShareOf(name, value) },
        "fed" => Seen with { Fed = Bool(name, value) },
        "fungus" => Seen with { Fungus = Bool(name, value) },
        "gasping" => Seen with { Gasping = Bool(name, value) },
        "ph" => Seen with { Ph = Number(name, value) },
        "ammoniaTotalMgL" => Seen with { AmmoniaTotalMgL = Number(name, value) },
        "nitriteMgL" => Seen with { NitriteMgL = Number(name, value) },
        "oxygenMgL" => Seen with { OxygenMgL = Number(name, value) },
        "chlorineMgL" => Seen with { ChlorineMgL = Number(name, value) },
        "waterChangedPercent" => Seen with { WaterChangedPercent = Number(name, value) },
        "note" => Seen with { Note = Text(name, value) },
        _ => Unknown(name),
    };

    private Observation Unknown(string name)
    {
        Wrong(name, "Is not a field of a reading; nothing is dropped in silence, so the reading was not stored.");
        return Seen;
    }

    private double? Number(string name, JsonElement value)
    {
        if (value.ValueKind == JsonValueKind.Number && value.TryGetDouble(out var number) && double.IsFinite(number))
        {
            return number;
        }

        Wrong(name, "Must be a number, with a point, e.g. 9.4.");
        return null;
    }

    private int? Whole(string name, JsonElement value)
    {
        if (value.ValueKind == JsonValueKind.Number && value.TryGetInt32(out var whole))
        {
            return whole;
        }

        Wrong(name, "Must be a whole number; null means not counted.");
        return null;
    }

    private bool? Bool(string name, JsonElement value)
    {
        if (value.ValueKind is JsonValueKind.True or JsonValueKind.False)
        {
            return value.GetBoolean();
        }

        Wrong(name, "Must be true or false.");
        return null;
    }

    private Share? ShareOf(string name, JsonElement value)
    {
        if (value.ValueKind == JsonValueKind.String && value.GetString() is "none" or "some" or "half" or "most" or "all")
        {
            return Enum.Parse<Share>(value.GetString()!, ignoreCase: true);
        }

        Wrong(name, "Must be none, some, half, most or all.");
        return null;
    }

    private string? Text(string name, JsonElement value)
    {
        if (value.ValueKind == JsonValueKind.String && value.GetString() is var text && !text!.Contains('\0', StringComparison.Ordinal))
        {
            return text;
        }

        Wrong(name, "Must be text, without the NUL sign.");
        return null;
    }

    private Guid? Uuid(string name, JsonElement value)
    {
        if (value.ValueKind == JsonValueKind.String && Guid.TryParseExact(value.GetString(), "D", out var id))
        {
            return id;
        }

        Wrong(name, "Must be a UUID, e.g. 7b0c1f7e-3a53-4c1e-9d2b-0c2f3a4b5c6d.");
        return null;
    }

    private DateTime? Instant(string name, JsonElement value)
    {
        var text = value.ValueKind == JsonValueKind.String ? value.GetString()! : "";
        if (TryInstant(text, clock, out var instant))
        {
            return instant;
        }

        Wrong(name, "Must be an ISO 8601 time with an offset, e.g. 2027-02-03T08:15:00-07:00.");
        return null;
    }

    /// <summary>A time with an offset, or a date alone, which is noon of the programme's local day. UTC.</summary>
    public static bool TryInstant(string text, ProgrammeClock clock, out DateTime instant)
    {
        instant = default;
        if (DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day))
        {
            instant = clock.Utc(day, new TimeOnly(12, 0));
            return true;
        }

        // Without an offset nobody knows which instant is meant; .NET would take the server's.
        var time = text.IndexOf('T', StringComparison.Ordinal);
        var hasOffset = time > 0 && (text.EndsWith('Z') || text.AsSpan(time).IndexOfAny('+', '-') > 0);
        if (!hasOffset || !DateTimeOffset.TryParse(text, CultureInfo.InvariantCulture, DateTimeStyles.None, out var moment))
        {
            return false;
        }

        instant = moment.UtcDateTime;
        return true;
    }

    /// <summary>A field that stands there again and again is told wrong once for each reason.</summary>
    private void Wrong(string field, string message)
    {
        var before = errors.GetValueOrDefault(field, []);
        errors[field] = before.Contains(message) ? before : [.. before, message];
    }
}
