using System.Globalization;
using System.Text.RegularExpressions;
using Tankside.Hatchery.People;
using Tankside.Portal.Shell.Sheets;

namespace Tankside.Portal.Readings.Sheets;

/// <summary>
/// What the headings of people's sheets mean, in English and Spanish. The first line that fits wins, so that "room temp" is the room's and
/// "dissolved oxygen" is no dissolved anything else.
/// </summary>
public static partial class HeaderWords
{
    private static readonly (ColumnMeaning Meaning, string[] Words)[] Lines =
    [
        (ColumnMeaning.Note, ["note", "notes", "comment*", "remark*", "observa*", "nota", "notas", "coment*"]),
        (ColumnMeaning.IceOnCoil, ["ice", "hielo"]),
        (ColumnMeaning.ChillerRunning, ["chiller", "enfriador*"]),
        (ColumnMeaning.WaterChanged, ["water change*", "changed", "cambio*"]),
        (ColumnMeaning.Ph, ["ph"]),
        (ColumnMeaning.Ammonia, ["ammonia", "nh3", "nh4", "tan", "amonia*", "amonio"]),
        (ColumnMeaning.Nitrite, ["nitrite*", "no2", "nitrito*"]),
        (ColumnMeaning.Chlorine, ["chlorine", "cl2", "cloro"]),
        (ColumnMeaning.Oxygen, ["oxygen", "do", "o2", "oxigeno"]),
        (ColumnMeaning.DeadEggs, ["dead egg*", "egg* dead", "egg loss*", "egg mort*", "huevo* muerto*", "muerto* huevo*", "egg* removed", "egg* picked"]),
        (ColumnMeaning.DeadAlevins, ["dead alevin*", "alevin* dead", "alevin loss*", "alevin mort*", "alevin* removed", "alevines muerto*", "muerto* alevin*"]),
        (ColumnMeaning.DeadFry, ["dead fry", "fry dead", "fry loss*", "fry mort*", "dead fish", "fry removed", "cria* muerta*", "muerta* cria*", "muerto* cria*", "pece* muerto*"]),
        (ColumnMeaning.Dead, ["dead", "death*", "mort", "morts", "mortalit*", "loss", "losses", "muerto*", "muerta*", "bajas", "mortalidad"]),
        (ColumnMeaning.Hatched, ["hatched", "eclosion*", "nacido*"]),
        (ColumnMeaning.Swimming, ["swimming", "swim up", "nadan*"]),
        (ColumnMeaning.Fungus, ["fungus", "hongo*"]),
        (ColumnMeaning.Gasping, ["gasping", "boquea*"]),
        (ColumnMeaning.Fed, ["fed", "feeding", "alimentad*", "comida", "comieron"]),
        (ColumnMeaning.Bubbles, ["bubble*", "burbuja*"]),
        (ColumnMeaning.LevelOk, ["level", "nivel"]),
        (ColumnMeaning.Clear, ["clear", "clarity", "clara", "transparente"]),
        (ColumnMeaning.Moving, ["moving", "flow", "flowing", "circulat*", "mueve", "movimiento"]),
        (ColumnMeaning.Unit, ["unit", "units", "scale", "unidad*", "escala"]),
        (ColumnMeaning.Room, ["room temp*", "air temp*", "room f", "room c", "air f", "air c", "temp* room", "temp* air", "ambient*", "temp* sala", "temp* aula", "temp* aire", "temp* ambiente"]),
        (ColumnMeaning.Water, ["temp", "temps", "temperature*", "temperatura*", "water", "agua", "wtemp", "thermometer", "termometro"]),
        (ColumnMeaning.Date, ["date", "datetime", "timestamp", "day", "fecha", "dia"]),
        (ColumnMeaning.Time, ["time", "hour", "hora"]),
        (ColumnMeaning.Tank, ["tank", "tanks", "tank id", "tank code", "aquarium", "tanque", "pecera", "acuario", "room", "classroom", "school", "aula", "salon", "escuela"]),
    ];

    /// <summary>The headings as whoever looks for their row needs them.</summary>
    public static HeadingReader Reader { get; } = new(heading => MeaningOf(heading), heading => UnitOf(heading) is not null);

    /// <summary>Null for a heading that says nothing we know.</summary>
    public static ColumnMeaning? MeaningOf(string heading)
    {
        var words = Headings.Plain(heading);
        return words.Length == 0 || (heading.Contains('%', StringComparison.Ordinal) && Headings.Has(words, "sat*")) ? null // A share of saturation is no mg/L.
            : Lines.Where(l => l.Words.Any(w => Headings.Has(words, w))).Select(l => (ColumnMeaning?)l.Meaning).FirstOrDefault();
    }

    /// <summary>The scale that a heading names: "Temp, °F", "Water (C)", "temp_f".</summary>
    public static TemperatureUnit? UnitOf(string heading)
    {
        var words = Headings.Plain(heading).Split(' ');
        var (f, c) = (words.Any(w => w is "f" or "degf" or "fahrenheit" or "tempf" or "waterf"), words.Any(w => w is "c" or "degc" or "celsius" or "centigrade" or "tempc" or "waterc"));
        return f == c ? null : f ? TemperatureUnit.F : TemperatureUnit.C;
    }

    /// <summary>The distance from UTC that a heading names: "Date Time, GMT-07:00" or "time (UTC)".</summary>
    public static TimeSpan? OffsetOf(string heading)
    {
        var found = Offset().Match(heading);
        if (!found.Success)
        {
            return null;
        }

        var hours = found.Groups[2].Success ? int.Parse(found.Groups[2].Value, CultureInfo.InvariantCulture) : 0;
        var minutes = found.Groups[3].Success ? int.Parse(found.Groups[3].Value, CultureInfo.InvariantCulture) : 0;
        var offset = new TimeSpan(hours, minutes, 0);
        return offset > TimeSpan.FromHours(14) ? null : found.Groups[1].Value is "-" or "−" ? -offset : offset;
    }

    [GeneratedRegex(@"\b(?:GMT|UTC)\s*(?:([+\-−])\s*([0-9]{1,2})(?::?([0-9]{2}))?)?", RegexOptions.IgnoreCase)]
    private static partial Regex Offset();
}
