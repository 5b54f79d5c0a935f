using System.Globalization;
using System.Text;
using System.Text.Json;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Readings;

namespace Tankside.Fuzz.Tests.Targets;

/// <summary>The body of POST /api/v1/readings, and of a replay.</summary>
public static class ReadingsJson
{
    private static readonly string[] Fields =
    [
        "id", "tank", "at", "waterC", "waterF", "roomC", "moving", "bubbles", "levelOk", "clear", "chillerRunning", "iceOnCoil", "deadEggs", "deadAlevins", "deadFry", "hatched", "swimming", "fed", "fungus",
        "gasping", "ph", "ammoniaTotalMgL", "nitriteMgL", "oxygenMgL", "chlorineMgL", "waterChangedPercent", "note", "corrects", "receivedAt", "waterK", "",
    ];

    private static readonly string[] Values =
    [
        "\"7b0c1f7e-3a53-4c1e-9d2b-0c2f3a4b5c6d\"", "\"A001\"", "\"2027-02-03T08:15:00-07:00\"", "\"2027-02-03\"", "\"2027-02-03T08:15:00Z\"", "\"0001-01-01\"", "\"9999-12-31\"", "\"2027-02-03T08:15:00\"", "9.4", "48.9",
        "-1", "1e3", "1e400", "9.40000000000000000000000000000000000000001", "true", "false", "null", "\"half\"", "\"all\"", "\"the pump hums\"", "\"\\u0000\"", "\"\\ud800\"", "[]", "{}", "\"\"", "0", "2147483648",
    ];

    private static readonly ProgrammeClock[] Clocks = [.. new[] { "America/Denver", "Pacific/Kiritimati", "Etc/GMT+12", "UTC" }.Select(ProgrammeClock.Of)];

    public static Target Target { get; } = new("readings-json", Make, Read)
    {
        Words = [.. Fields.Select(f => $"\"{f}\":"), .. Values, ",", "{", "}", "[", "]"],
    };

    private static byte[] Make(Dice dice) => Texts.Bytes($"{{\"readings\":[{string.Join(',', Enumerable.Range(0, dice.Below(4)).Select(_ => Item(dice)))}]}}");

    private static string Item(Dice dice)
    {
        var fields = Enumerable.Range(0, dice.Below(8)).Select(_ => $"\"{dice.Of(Fields)}\":{dice.Of(Values)}");
        return $"{{{string.Join(',', dice.OneIn(3) ? fields : [$"\"id\":{Values[0]},\"tank\":\"A001\",\"at\":{Values[2]}", .. fields])}}}";
    }

    private static string Read(byte[] body)
    {
        JsonDocument document;
        try
        {
            document = JsonDocument.Parse(body);
        }
        catch (JsonException)
        {
            return "not JSON";
        }

        using (document)
        {
            if (ReadingJson.ListOf(document.RootElement) is not { } list)
            {
                return "no list of readings";
            }

            // Into one text: memory is measured, and it should be the parser's.
            var said = new StringBuilder();
            foreach (var item in list.EnumerateArray())
            {
                foreach (var clock in Clocks)
                {
                    Check(item, clock, said);
                }
            }

            return said.ToString();
        }
    }

    private static void Check(JsonElement item, ProgrammeClock clock, StringBuilder said)
    {
        var read = ReadingJson.Parse(item, clock, ofHistory: false);
        if (read.Errors.Count > 0)
        {
            Held.Said(read.Errors.SelectMany(e => e.Value));
            foreach (var (field, why) in read.Errors.OrderBy(e => e.Key, StringComparer.Ordinal))
            {
                said.Append('“').Append(field).Append("” ").AppendJoin(' ', why).Append(' ');
            }

            said.AppendLine();
            return;
        }

        Held.That(read is { Id: not null, Tank: not null, At.Kind: DateTimeKind.Utc }, "A reading without id, tank or time was taken.");
        Held.Storable(read.Tank, "The tank");
        CheckTyped(read.Water, read.Seen);
        using var again = JsonDocument.Parse(Written(read));
        var back = ReadingJson.Parse(again.RootElement, clock, ofHistory: false);
        Held.That(
            back.Errors.Count == 0 && (back.Id, back.Tank, back.At, back.Corrects, back.Water?.Value, back.Seen) == (read.Id, read.Tank, read.At, read.Corrects, read.Water?.Value, read.Seen),
            "What was taken and written again is read as something else.");
        said.AppendLine(CultureInfo.InvariantCulture, $"taken with {string.Join(' ', JsonSerializer.SerializeToElement(read.Seen).EnumerateObject().Where(p => p.Value.ValueKind != JsonValueKind.Null).Select(p => p.Name))}");
    }

    /// <summary>What every door hands on: it can be judged, known again and stored.</summary>
    public static void CheckTyped(TypedWater? water, Observation seen)
    {
        Held.Storable(seen.Note, "The note");
        Held.Storable(water?.Text, "The temperature as typed");
        _ = ObservationRules.Check(seen);
        _ = ReadingHash.Of(new DateTime(2027, 2, 3, 0, 0, 0, DateTimeKind.Utc), seen, null);
        if (water is not null && WaterTemperature.Judge(water.Value, water.Unit, default, new TankHabits(9, default, 208, Science.Heat.Jacket.Foam, 21)) is not WaterVerdict.Refused)
        {
            Held.That(water.Text.Length <= WaterTemperature.LongestTyped, $"A temperature of {water.Text.Length} signs was taken, and all of them would be stored.");
        }
    }

    private static string Written(ReadingJson read)
    {
        var fields = new Dictionary<string, object?> { ["id"] = read.Id!.Value.ToString("D"), ["tank"] = read.Tank, ["at"] = read.At!.Value.ToString("yyyy-MM-dd'T'HH:mm:ss.fffffff'Z'", CultureInfo.InvariantCulture) };
        if (read.Corrects is { } corrects)
        {
            fields["corrects"] = corrects.ToString("D");
        }

        if (read.Water is { } water)
        {
            fields[water.Field] = water.Value;
        }

        foreach (var property in JsonSerializer.SerializeToElement(read.Seen, JsonSerializerOptions.Web).EnumerateObject().Where(p => p.Name is not ("isEmpty" or "waterC")))
        {
            fields[property.Name] = property.Name is "hatched" or "swimming" && property.Value.ValueKind == JsonValueKind.Number ? ((Share)property.Value.GetInt32()).ToString().ToLowerInvariant() : property.Value;
        }

        return JsonSerializer.Serialize(fields);
    }
}
