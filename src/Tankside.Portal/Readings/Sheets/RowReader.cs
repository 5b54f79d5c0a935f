using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Shell;
using Tankside.Portal.Shell.Sheets;

namespace Tankside.Portal.Readings.Sheets;

/// <summary>What one row says.</summary>
public abstract record RowSaid
{
    /// <summary>A reading; whether it is believed the intake decides.</summary>
    public sealed record Reading(IncomingReading Incoming, NamedTank Tank) : RowSaid;

    public sealed record Nothing : RowSaid;

    /// <summary>Not readable, and why: heading, cell, what was expected.</summary>
    public sealed record Unclear(IReadOnlyList<string> Why) : RowSaid;
}

/// <summary>Reads the rows of one sheet as its columns say. No database, no clock.</summary>
public sealed class RowReader(SheetColumns columns, IReadOnlyList<string> titles, TankNames tanks, ProgrammeClock clock, Guid import, Guid sentBy, Say say)
{
    /// <summary>Columns whose cells alone make a row worth reading: a day and a tank are there before anybody looked.</summary>
    private readonly int[] seenColumns = [.. Enumerable.Range(0, columns.Meanings.Count).Where(c =>
        columns.Meanings[c] is not (ColumnMeaning.LeftOut or ColumnMeaning.Tank or ColumnMeaning.Date or ColumnMeaning.Time or ColumnMeaning.Unit or ColumnMeaning.Dead))];

    private readonly NamedTank? onlyTank = columns.Tank is { } code ? tanks.Find(code) : null;

    public RowSaid Read(SheetRow row)
    {
        if (row.Trouble is { } trouble)
        {
            return new RowSaid.Unclear([RowTroubles.To(trouble, say)]);
        }

        if (row.IsBlank)
        {
            return new RowSaid.Nothing();
        }

        var why = new List<string>();
        for (var column = columns.Meanings.Count; column < row.Cells.Count; column++)
        {
            if (row[column].Length > 0)
            {
                why.Add(say.Of("“{0}” stands beyond the last heading. Did a decimal comma split a number?", SheetTexts.Shortened(row[column])));
                break;
            }
        }

        var cells = new RowCells(row, columns, titles, why, say);
        if (seenColumns.All(c => CellWords.SaysNothing(row[c])) && why.Count == 0)
        {
            return new RowSaid.Nothing();
        }

        var tank = TankOf(cells);
        var at = InstantOf(cells);
        var water = tank is null ? null : WaterOf(cells, tank);
        var seen = cells.Observation(columns.RoomUnit ?? columns.WaterUnit ?? tank?.UsualUnit ?? TemperatureUnit.F);
        return why.Count > 0 || tank is null || at is not { } instant ? new RowSaid.Unclear(why) : new RowSaid.Reading(
            new IncomingReading
            {
                SenderId = Guid.Empty, // Made from the content once it is known which of the same rows this is.
                TankId = tank.Id,
                At = instant,
                Seen = seen,
                Water = water,
                Source = ReadingSource.Sheet,
                EnteredBy = sentBy,
                ImportId = import,
            },
            tank);
    }

    private NamedTank? TankOf(RowCells cells)
    {
        if (!columns.Has(ColumnMeaning.Tank))
        {
            return onlyTank ?? cells.Unclear(say["Nobody has said yet which tank this sheet is of."]);
        }

        var name = cells[ColumnMeaning.Tank];
        return name.Length == 0 ? cells.Unclear(say["The row names no tank."])
            : tanks.Find(name) ?? cells.Unclear(say.Of("“{0}” is not a tank, or a school or room with a single tank, that you may enter readings for.", SheetTexts.Shortened(name)));
    }

    private DateTime? InstantOf(RowCells cells)
    {
        var (date, clockTime) = (cells[ColumnMeaning.Date], cells[ColumnMeaning.Time]);
        if (columns.DateOrder is not { } order || SheetDates.Read(date, order) is not { } moment)
        {
            cells.Unclear(date.Length == 0 ? say["The row names no day."] : say.Of("“{0}” is not a date with day, month and year.", SheetTexts.Shortened(date)));
            return null;
        }

        var time = moment.Time;
        if (!CellWords.SaysNothing(clockTime))
        {
            // A time column that some programs fill with the day as well: 2027-02-03 08:15.
            time = SheetDates.ReadTime(clockTime) ?? SheetDates.Read(clockTime, order)?.Time;
            if (time is null)
            {
                cells.Unclear(say.Of("“{0}” is not a time of day, such as 8:15 AM or 13:05.", SheetTexts.Shortened(clockTime)));
                return null;
            }
        }

        var at = time ?? columns.Hour;
        return columns.Offset is { } offset
            ? DateTime.SpecifyKind(moment.Day.ToDateTime(at) - offset, DateTimeKind.Utc)
            : clock.Utc(moment.Day, at);
    }

    private TypedWater? WaterOf(RowCells cells, NamedTank tank)
    {
        var typed = cells[ColumnMeaning.Water];
        if (CellWords.SaysNothing(typed))
        {
            return null;
        }

        if (!WaterTemperature.TryRead(typed, out var value, out var written) || !double.IsFinite(value))
        {
            cells.Unclear(say.Of("“{0}” under “{1}” is not a temperature, such as 52.5.", SheetTexts.Shortened(typed), cells.TitleOf(ColumnMeaning.Water)));
            return null;
        }

        var besides = cells[ColumnMeaning.Unit];
        if (written is null && besides.Length > 0 && (written = HeaderWords.UnitOf(besides)) is null)
        {
            cells.Unclear(say.Of("“{0}” is neither °F nor °C.", SheetTexts.Shortened(besides)));
        }

        return new TypedWater(typed, value, written ?? columns.WaterUnit ?? tank.UsualUnit, "water");
    }
}
