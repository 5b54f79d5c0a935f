using System.Globalization;
using Tankside.Hatchery.People;
using Tankside.Portal.Shell.Sheets;

namespace Tankside.Portal.Readings.Sheets;

/// <summary>The posted choices about columns. What is left out or makes no sense stays as it was.</summary>
public static class ColumnsRead
{
    public static SheetColumns From(IFormCollection form, SheetInHand sheet)
    {
        var columns = sheet.Columns;
        if (int.TryParse(form["leaf"], CultureInfo.InvariantCulture, out var leaf) && leaf != columns.Leaf && leaf >= 0 && leaf < sheet.File.Leaves.Count)
        {
            return columns with { Leaf = leaf, Meanings = [] }; // Its columns are others: they are guessed anew.
        }

        return columns with
        {
            Meanings = [.. columns.Meanings.Select((was, column) => Enum.TryParse<ColumnMeaning>(form[$"meaning-{column}"], out var chosen) && Enum.IsDefined(chosen) ? chosen : was)],
            Tank = form.ContainsKey("tank") ? sheet.Tanks.Find(form["tank"].ToString())?.Code : columns.Tank,
            WaterUnit = UnitOf("water-unit", columns.WaterUnit),
            RoomUnit = UnitOf("room-unit", columns.RoomUnit),
            DateOrder = Enum.TryParse<DateOrder>(form["order"], out var order) && Enum.IsDefined(order) ? order : columns.DateOrder,
            Hour = TimeOnly.TryParse(form["hour"], CultureInfo.InvariantCulture, out var hour) ? hour : columns.Hour,
        };

        TemperatureUnit? UnitOf(string field, TemperatureUnit? was) => !form.ContainsKey(field) ? was : form[field].ToString() switch
        {
            "F" => TemperatureUnit.F,
            "C" => TemperatureUnit.C,
            _ => null,
        };
    }
}
