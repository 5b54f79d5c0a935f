using System.Globalization;
using System.Text.Json;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Portal.Readings;
using Tankside.Science.Eggs;
using Tankside.Science.Heat;

namespace Tankside.Portal.Commands.Replaying;

/// <summary>A case that cannot be read; the message says where.</summary>
public sealed class UnreadableCaseException(string where, string what) : Exception($"{where}: {what}");

/// <summary>A tank of a case.</summary>
public sealed record CaseTank(TankProfile Profile, LotProfile? Lot, int Fish);

/// <summary>A recorded or made-up history with its own clock. What is left out takes the portal's defaults.</summary>
public sealed record ReplayCase(SchoolCalendar Calendar, IReadOnlyList<CaseTank> Tanks, IReadOnlyList<ReadingJson> Readings, IReadOnlyList<DateTime> Ask)
{
    /// <exception cref="UnreadableCaseException">Something in it is not what the format says.</exception>
    public static ReplayCase Parse(string text)
    {
        JsonDocument document;
        try
        {
            document = JsonDocument.Parse(text);
        }
        catch (JsonException e)
        {
            throw new UnreadableCaseException("case", $"not JSON (line {e.LineNumber + 1}, byte {e.BytePositionInLine})");
        }

        using (document)
        {
            var root = new CaseNode("case", document.RootElement);
            var calendar = CalendarOf(root);
            var lots = LotsOf(root);
            var tanks = root.List("tanks").Select(t => TankOf(t, lots)).ToList();
            var twice = tanks.GroupBy(t => t.Profile.Code).FirstOrDefault(g => g.Count() > 1);
            if (twice is not null)
            {
                throw new UnreadableCaseException("tanks", $"{twice.Key} is there twice");
            }

            return new ReplayCase(calendar, tanks, ReadingsOf(root, calendar.Clock, tanks), AskOf(root, calendar.Clock));
        }
    }

    private static SchoolCalendar CalendarOf(CaseNode root)
    {
        var zone = root.TextOr("timeZone", "UTC");
        if (!TimeZoneInfo.TryFindSystemTimeZoneById(zone, out var found))
        {
            throw new UnreadableCaseException("timeZone", $"'{zone}' is not a time zone");
        }

        var day = root.Part("schoolDay");
        var (opens, closes) = (day?.Time("open") ?? new TimeOnly(8, 0), day?.Time("close") ?? new TimeOnly(15, 15));
        if (opens >= closes)
        {
            throw new UnreadableCaseException("schoolDay", "closes before it opens");
        }

        var closures = root.List("closures").Select(c => c.AsDate()).Select(d => (d, d)).ToList();
        return new SchoolCalendar(new ProgrammeClock(found), opens, closes, closures);
    }

    private static Dictionary<string, CaseNode> LotsOf(CaseNode root)
    {
        var lots = new Dictionary<string, CaseNode>(StringComparer.Ordinal);
        foreach (var lot in root.List("lots"))
        {
            if (!lots.TryAdd(lot.Text("code"), lot))
            {
                throw new UnreadableCaseException(lot.Where, $"there is a lot '{lot.Text("code")}' already");
            }
        }

        return lots;
    }

    private static CaseTank TankOf(CaseNode tank, Dictionary<string, CaseNode> lots)
    {
        var lotCode = tank.TextOr("lot", "");
        if (lotCode.Length > 0 && !lots.ContainsKey(lotCode))
        {
            throw new UnreadableCaseException(tank.Where, $"there is no lot '{lotCode}'");
        }

        var profile = new TankProfile { Id = Guid.Empty, Code = tank.Text("code") };
        profile = profile with
        {
            Id = new Guid(System.Security.Cryptography.SHA256.HashData(System.Text.Encoding.UTF8.GetBytes(profile.Code)).AsSpan(0, 16)),
            Litres = tank.NumberOr("litres", profile.Litres, 1, 10_000),
            Jacket = tank.Choice("jacket", "none", ("none", Jacket.None), ("foam", Jacket.Foam)),
            SetPointC = tank.NumberOr("setPointC", profile.SetPointC, -2, 30),
            RoomC = tank.NumberOr("roomC", profile.RoomC, -30, 50),
            ElevationM = tank.NumberOr("elevationM", profile.ElevationM, -400, 6000),
            Disinfectant = tank.Choice("disinfectant", "unknown", ("chlorine", Disinfectant.Chlorine), ("chloramine", Disinfectant.Chloramine),
                ("none", Disinfectant.None), ("unknown", Disinfectant.Unknown)),
            Area = tank.TextOr("area", ""),
            ChillerBatch = tank.TextOr("chillerBatch", "") is { Length: > 0 } batch ? batch : null,
            Water = tank.TextOr("water", "") is { Length: > 0 } water ? water : null,
            NewTeacher = tank.BoolOr("newTeacher", false),
            DistanceKm = tank.NumberOr("distanceKm", 0, 0, 20_000),
        };
        var lot = lotCode.Length == 0 ? null : LotOf(lots[lotCode], tank);
        return new CaseTank(profile, lot, (int)tank.NumberOr("fish", 150, 0, 1_000_000));
    }

    private static LotProfile LotOf(CaseNode lot, CaseNode tank)
    {
        var code = lot.Text("species");
        if (!SpeciesCodes.TryParse(code, lot.TextOr("line", "") is { Length: > 0 } line ? line : null, out var species))
        {
            throw new UnreadableCaseException(lot.Where, $"'{code}' is not a species");
        }

        var fertilised = lot.Date("fertilised");
        var fertilisedTo = lot.DateOr("fertilisedTo", fertilised);
        if (fertilisedTo < fertilised)
        {
            throw new UnreadableCaseException(lot.Where, "'fertilisedTo' lies before 'fertilised'");
        }

        return new LotProfile(
            lot.Text("code"), species, fertilised, fertilisedTo, lot.NumberOr("meanC", 9, 0, 20),
            tank.DateOr("delivered", fertilised), tank.TextOr("run", lot.TextOr("run", "")) is { Length: > 0 } run ? run : null);
    }

    private static List<ReadingJson> ReadingsOf(CaseNode root, ProgrammeClock clock, List<CaseTank> tanks)
    {
        var codes = tanks.Select(t => t.Profile.Code).ToHashSet(StringComparer.Ordinal);
        var readings = new List<ReadingJson>();
        foreach (var node in root.List("readings"))
        {
            var reading = ReadingJson.Parse(node.Value, clock, ofHistory: true);
            if (reading.Tank is { } code && !codes.Contains(code))
            {
                throw new UnreadableCaseException(node.Where, $"there is no tank '{code}'");
            }

            if (reading.Errors.FirstOrDefault() is { Key: { } field, Value: var messages })
            {
                throw new UnreadableCaseException(node.Where, $"{field}: {string.Join(" ", messages)}");
            }

            readings.Add(reading);
        }

        return readings;
    }

    private static List<DateTime> AskOf(CaseNode root, ProgrammeClock clock) =>
        [.. root.List("ask").Select(a => ReadingJson.TryInstant(a.AsText(), clock, out var at)
            ? at
            : throw new UnreadableCaseException(a.Where, "must be a time with an offset"))];
}

/// <summary>A node of the case that knows where it stands, so that every complaint can say so.</summary>
public sealed class CaseNode(string where, JsonElement value)
{
    public string Where { get; } = where;

    public JsonElement Value { get; } = value;

    public CaseNode? Part(string name) => Find(name) is { } found
        ? found.Value.ValueKind == JsonValueKind.Object ? found : throw found.Wrong("must be an object")
        : null;

    public IReadOnlyList<CaseNode> List(string name) => Find(name) is not { } list ? []
        : list.Value.ValueKind != JsonValueKind.Array ? throw list.Wrong("must be a list")
        : [.. list.Value.EnumerateArray().Select((item, i) => new CaseNode($"{name}[{i}]", item))];

    public string Text(string name) => Find(name)?.AsText() is { Length: > 0 } text ? text : throw Wrong($"'{name}' is missing");

    public string TextOr(string name, string otherwise) => Find(name)?.AsText() ?? otherwise;

    public DateOnly Date(string name) => (Find(name) ?? throw Wrong($"'{name}' is missing")).AsDate();

    public DateOnly DateOr(string name, DateOnly otherwise) => Find(name)?.AsDate() ?? otherwise;

    public bool BoolOr(string name, bool otherwise) => Find(name) is not { } found ? otherwise
        : found.Value.ValueKind is JsonValueKind.True or JsonValueKind.False ? found.Value.GetBoolean()
        : throw found.Wrong("must be true or false");

    public double NumberOr(string name, double otherwise, double least, double most)
    {
        if (Find(name) is not { } found)
        {
            return otherwise;
        }

        return found.Value.ValueKind == JsonValueKind.Number && found.Value.TryGetDouble(out var number) && number >= least && number <= most
            ? number
            : throw found.Wrong(string.Create(CultureInfo.InvariantCulture, $"must be a number between {least} and {most}"));
    }

    public TimeOnly? Time(string name) => Find(name) is not { } found ? null
        : TimeOnly.TryParseExact(found.AsText(), "HH:mm", CultureInfo.InvariantCulture, DateTimeStyles.None, out var time) ? time
        : throw found.Wrong("must be a time such as 08:00");

    public T Choice<T>(string name, string otherwise, params (string Word, T Value)[] choices)
    {
        var word = TextOr(name, otherwise);
        foreach (var choice in choices)
        {
            if (choice.Word == word)
            {
                return choice.Value;
            }
        }

        throw new UnreadableCaseException($"{Where}.{name}", $"must be one of {string.Join(", ", choices.Select(c => c.Word))}");
    }

    public string AsText()
    {
        try
        {
            return Value.ValueKind == JsonValueKind.String ? Value.GetString()! : throw Wrong("must be text");
        }
        catch (InvalidOperationException)
        {
            throw Wrong("is not valid Unicode"); // Half of a surrogate pair.
        }
    }

    public DateOnly AsDate() =>
        DateOnly.TryParseExact(AsText(), "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var date)
            ? date
            : throw Wrong("must be a date such as 2027-01-15");

    private CaseNode? Find(string name)
    {
        if (Value.ValueKind != JsonValueKind.Object)
        {
            throw Wrong("must be an object");
        }

        try
        {
            return Value.TryGetProperty(name, out var found) && found.ValueKind != JsonValueKind.Null ? new CaseNode($"{Where}.{name}", found) : null;
        }
        catch (InvalidOperationException)
        {
            throw Wrong("has a name that is not valid Unicode"); // Half of a surrogate pair.
        }
    }

    private UnreadableCaseException Wrong(string what) => new(Where, what);
}
