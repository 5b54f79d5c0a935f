using System.Globalization;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Readings;
using Tankside.Portal.Shell;

namespace Tankside.Portal.Flags.InTheTank;

/// <summary>One reading as a row of words. What was not looked at is left out.</summary>
/// <param name="Typed">What was typed, where the number understood is another.</param>
/// <param name="Standing">Empty for a reading that counts.</param>
public sealed record ReadingRow(string Water, string? Typed, string Seen, string Dead, string By, string Standing)
{
    private static readonly CultureInfo Plain = CultureInfo.InvariantCulture;

    public static ReadingRow Of(Reading reading, ScaleWords scale, Say say) => new(
        reading is { State: ReadingState.Accepted, Seen.WaterC: { } c } ? scale.Both(c) : "",
        TypedOtherwise(reading), SeenOf(reading.Seen, say), DeadOf(reading.Seen, say), say[ByOf(reading.Source)], StandingOf(reading) is { Length: > 0 } standing ? say[standing] : "");

    private static string? TypedOtherwise(Reading reading)
    {
        if (reading.TypedWater is not { } text)
        {
            return null;
        }

        var asTyped = $"{text}{(reading.TypedUnit is { } unit ? " " + DoubtWords.Scale(unit) : "")}";
        if (reading.State != ReadingState.Accepted || reading.Seen.WaterC is not { } understood || !WaterTemperature.TryRead(text, out var value, out var said))
        {
            return asTyped;
        }

        // A hundredth is how finely temperatures are stored.
        var meant = WaterTemperature.ToC(value, reading.TypedUnit ?? said ?? TemperatureUnit.C);
        return Math.Abs(meant - understood) > 0.0101 ? asTyped : null;
    }

    private static string SeenOf(Observation seen, Say say)
    {
        List<string?> words =
        [
            Tick(seen.Moving, say["moving"], say["not moving"]),
            Tick(seen.Bubbles, say["bubbles"], say["no bubbles"]),
            Tick(seen.LevelOk, say["level"], say["level low"]),
            Tick(seen.Clear, say["clear"], say["cloudy"]),
            Tick(seen.ChillerRunning, say["chiller on"], say["chiller off"]),
            Tick(seen.IceOnCoil, say["ice on the coil"], say["no ice"]),
            seen.Hatched is { } hatched ? say.Of("{0} hatched", say[Of(hatched)]) : null,
            seen.Swimming is { } swimming ? say.Of("{0} swimming", say[Of(swimming)]) : null,
            Tick(seen.Fed, say["fed"], say["not fed"]),
            seen.Fungus == true ? say["fungus"] : null,
            seen.Gasping == true ? say["gasping"] : null,
            seen.Ph is { } ph ? $"pH {ph.ToString("0.0#", Plain)}" : null,
            MgL(seen.AmmoniaTotalMgL, say["ammonia"]),
            MgL(seen.NitriteMgL, say["nitrite"]),
            MgL(seen.OxygenMgL, say["oxygen"]),
            MgL(seen.ChlorineMgL, say["chlorine"]),
            seen.WaterChangedPercent > 0 ? say.Of("{0}% of the water changed", seen.WaterChangedPercent.Value.ToString("0", Plain)) : null,
            seen.Note is { } note ? $"“{note}”" : null,
        ];
        return string.Join(", ", words.OfType<string>());
    }

    private static string? Tick(bool? seen, string yes, string no) => seen switch
    {
        null => null,
        true => yes,
        false => no,
    };

    private static string? MgL(double? value, string name) => value is { } v ? $"{name} {v.ToString("0.###", Plain)} mg/L" : null;

    private static string Of(Share share) => share == Share.Half ? "about half" : share.ToString().ToLowerInvariant();

    private static string DeadOf(Observation seen, Say say)
    {
        (int? Count, string One, string Several)[] counts = [(seen.DeadEggs, say["egg"], say["eggs"]), (seen.DeadAlevins, say["alevin"], say["alevins"]), (seen.DeadFry, say["fry|one"], say["fry"])];
        var told = counts.Where(c => c.Count is not null).ToList();
        return told.Count == 0 ? "" : told.Sum(c => c.Count) == 0 ? "0" : string.Join(", ", told.Where(c => c.Count > 0).Select(c => CountWords.Count(c.Count!.Value, c.One, c.Several)));
    }

    private static string ByOf(ReadingSource source) => source switch
    {
        ReadingSource.Class => "class",
        ReadingSource.Person => "adult",
        ReadingSource.Logger => "logger",
        ReadingSource.PhoneCall => "phone call",
        ReadingSource.Sheet => "imported sheet",
    };

    private static string StandingOf(Reading reading) => reading.CorrectedBy is not null ? "corrected since" : reading.State switch
    {
        ReadingState.Accepted => reading.Corrects is null ? "" : "a correction",
        ReadingState.Asked => "asked, not judged",
        ReadingState.Withdrawn => "withdrawn",
    };
}
