using System.Globalization;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Shell;
using Tankside.Portal.Shell.Sheets;

namespace Tankside.Portal.Readings.Sheets;

/// <summary>A row as it was understood, in one line, so that a wrong guess is seen at a glance.</summary>
internal static class UnderstoodWords
{
    public static string Of(JudgedRow row, ProgrammeClock clock, Say say)
    {
        if (row is not { Understood: { } reading, Tank: { } tank })
        {
            return "";
        }

        var seen = reading.Seen;
        (string Name, object? Value)[] fields =
        [
            ("room|temperature", seen.RoomC is { } room ? string.Create(CultureInfo.InvariantCulture, $"{room:0.#} °C") : null),
            ("moving", seen.Moving), ("bubbles", seen.Bubbles), ("level right", seen.LevelOk), ("clear", seen.Clear), ("chiller running", seen.ChillerRunning), ("ice", seen.IceOnCoil),
            ("dead eggs", seen.DeadEggs), ("dead alevins", seen.DeadAlevins), ("dead fry", seen.DeadFry), ("hatched|share", seen.Hatched), ("swimming|share", seen.Swimming),
            ("fed", seen.Fed), ("fungus", seen.Fungus), ("gasping", seen.Gasping), ("pH", seen.Ph), ("ammonia", seen.AmmoniaTotalMgL), ("nitrite", seen.NitriteMgL),
            ("oxygen", seen.OxygenMgL), ("chlorine", seen.ChlorineMgL), ("water changed, %", seen.WaterChangedPercent), ("note", seen.Note is null ? null : say["yes"]),
        ];
        var when = clock.Local(reading.At).ToString("d MMM yyyy, HH:mm", say.IsSpanish ? say.Culture : CultureInfo.InvariantCulture);
        return string.Join("; ", fields.Where(f => f.Value is not null).Select(f => say.Of("{0} {1}|what was seen", say[f.Name], Value(f.Value!, say)))
            .Prepend(reading.Water is { } water ? Water(water, say) : say["no temperature"]).Prepend($"{tank.Code}, {when}"));
    }

    /// <summary>What stood in the sheet, cell by cell.</summary>
    public static string Cells(SheetRow row)
    {
        var cells = string.Join(" · ", row.Cells.Select(c => c.Trim()).Where(c => c.Length > 0));
        return cells.Length <= 160 ? cells : string.Concat(cells.AsSpan(0, 159), "…");
    }

    private static string Water(TypedWater water, Say say)
    {
        var other = water.Unit == TemperatureUnit.F ? TemperatureUnit.C : TemperatureUnit.F;
        var converted = WaterTemperature.FromC(WaterTemperature.ToC(water.Value, water.Unit), other);
        return say.Of("water {0:0.##} {1} ({2:0.#} {3})", water.Value, DoubtWords.Scale(water.Unit), converted, DoubtWords.Scale(other));
    }

    private static string Of(Share share) => share switch
    {
        Share.None => "none|of them",
        Share.Some => "some",
        Share.Half => "half|of them",
        Share.Most => "most",
        Share.All => "all",
    };

    private static string Value(object value, Say say) => value switch
    {
        bool yes => yes ? say["yes"] : say["no"],
        Share share => say[Of(share)],
        IFormattable number => number.ToString(null, CultureInfo.InvariantCulture),
        _ => value.ToString()!,
    };
}
