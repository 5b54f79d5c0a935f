using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Shell.Sheets;

namespace Tankside.Portal.Readings.Sheets;

/// <summary>Guesses how a sheet is to be read, from its headings and its first rows.</summary>
public static class GuessColumns
{
    /// <summary>Rows that the guess looks at.</summary>
    private const int Looked = 2_000;

    /// <param name="today">Today in the programme; a reading does not lie ahead of it.</param>
    public static SheetColumns Of(SheetFile file, TankNames tanks, DateOnly today, int? leaf = null)
    {
        var header = SheetHeader.Find(file.Rows(), HeaderWords.Reader);
        var rows = file.Rows().SkipWhile(r => r.Number <= header.LastRow).Where(r => r is { Trouble: null, IsBlank: false }).Take(Looked).ToList();
        var meanings = OncePerMeaning(header.Titles, rows, tanks);
        var guess = new SheetColumns
        {
            Leaf = leaf,
            HeaderRow = header.LastRow,
            Meanings = meanings,
            Tank = tanks.All.Count == 1 ? tanks.All[0].Code : header.Above.SelectMany(a => Headings.Plain(a).Split(' ')).Select(tanks.Find).FirstOrDefault(t => t is not null)?.Code,
        };
        var of = guess.Has(ColumnMeaning.Tank) ? null : guess.Tank is { } code ? tanks.Find(code) : null;
        return guess with
        {
            Tank = guess.Has(ColumnMeaning.Tank) ? null : guess.Tank,
            WaterUnit = UnitOf(header.Titles, rows, guess.ColumnOf(ColumnMeaning.Water)),
            RoomUnit = UnitOf(header.Titles, [], guess.ColumnOf(ColumnMeaning.Room)),
            DateOrder = OrderOf(rows, guess.ColumnOf(ColumnMeaning.Date), today),
            Offset = header.Titles.Take(meanings.Length).Where((_, c) => meanings[c] is ColumnMeaning.Date or ColumnMeaning.Time).Select(HeaderWords.OffsetOf).FirstOrDefault(o => o is not null),
            Hour = (of ?? (tanks.All.Count > 0 ? tanks.All[0] : null))?.OpensAt ?? guess.Hour,
        };
    }

    /// <summary>Of several columns with one meaning the one whose cells fit it best; the others are not taken.</summary>
    private static ColumnMeaning[] OncePerMeaning(IReadOnlyList<string> titles, List<SheetRow> rows, TankNames tanks)
    {
        var meanings = titles.Take(SheetLimits.MostColumns).Select(t => HeaderWords.MeaningOf(t) ?? ColumnMeaning.LeftOut).ToArray();
        foreach (var same in meanings.Index().Where(m => m.Item != ColumnMeaning.LeftOut).GroupBy(m => m.Item, m => m.Index).Where(g => g.Count() > 1).ToList())
        {
            var best = same.MaxBy(column => rows.Count(r => Fits(same.Key, r[column], tanks)));
            foreach (var other in same.Where(c => c != best))
            {
                meanings[other] = ColumnMeaning.LeftOut;
            }
        }

        return meanings;
    }

    private static bool Fits(ColumnMeaning meaning, string cell, TankNames tanks) => meaning switch
    {
        ColumnMeaning.Tank => tanks.Find(cell) is not null,
        ColumnMeaning.Date => SheetDates.Read(cell, DateOrder.MonthFirst) is not null || SheetDates.Read(cell, DateOrder.DayFirst) is not null,
        ColumnMeaning.Time => SheetDates.ReadTime(cell) is not null,
        ColumnMeaning.Water or ColumnMeaning.Room => WaterTemperature.TryRead(cell, out _, out _),
        ColumnMeaning.Note => cell.Length > 0,
        ColumnMeaning.Unit => cell.Length > 0,
        _ => CellWords.Number(cell) is not null || CellWords.YesNo(cell) is not null || ShareWords.ShareOf(cell) is not null,
    };

    /// <summary>The scale that the heading names, or that four of five temperatures are on; otherwise nobody knows.</summary>
    private static TemperatureUnit? UnitOf(IReadOnlyList<string> titles, List<SheetRow> rows, int column)
    {
        if (column < 0)
        {
            return null;
        }

        if (HeaderWords.UnitOf(titles[column]) is { } named)
        {
            return named;
        }

        var values = rows.Select(r => WaterTemperature.TryRead(r[column], out var value, out var unit) && unit is null ? value : double.NaN).Where(double.IsFinite).ToList();
        var (celsius, fahrenheit) = (values.Count(v => v is > 0 and < 22), values.Count(v => v is >= 32 and <= 80));
        return values.Count == 0 ? null
            : celsius >= 0.8 * values.Count ? TemperatureUnit.C
            : fahrenheit >= 0.8 * values.Count ? TemperatureUnit.F
            : null;
    }

    /// <summary>
    /// The order that makes dates of the most cells; when both do, the one that puts none ahead of today. Null when that does not tell either.
    /// </summary>
    private static DateOrder? OrderOf(List<SheetRow> rows, int column, DateOnly today)
    {
        var cells = column < 0 ? [] : rows.Select(r => r[column]).Where(c => SheetDates.Ways(c) is not null).ToList();
        var (month, day) = (Reads(DateOrder.MonthFirst), Reads(DateOrder.DayFirst));
        if (month.Count != day.Count)
        {
            return month.Count > day.Count ? DateOrder.MonthFirst : DateOrder.DayFirst;
        }

        var (monthAhead, dayAhead) = (month.Count(d => d > today), day.Count(d => d > today));
        return month.SequenceEqual(day) ? DateOrder.MonthFirst
            : (monthAhead == 0) == (dayAhead == 0) ? null
            : monthAhead == 0 ? DateOrder.MonthFirst : DateOrder.DayFirst;

        List<DateOnly> Reads(DateOrder order) => [.. cells.Select(c => SheetDates.Read(c, order)?.Day).OfType<DateOnly>()];
    }
}
