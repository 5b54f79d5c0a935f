using Tankside.Fuzz.Tests.Targets;

namespace Tankside.Fuzz.Tests;

/// <summary>Every parser of what comes from outside.</summary>
public static class Parsers
{
    public static IReadOnlyList<Target> All { get; } =
    [
        ReadingsJson.Target, Sheets.Csv, Sheets.Workbook, Sheets.Model, Cells.Target, CalendarIn.Target, CalendarOut.Target, Forms.Target, Typed.Target, OwnWords.Target, Columns.Target, Photos.Target, Papers.Target, Bounces.Target,
        Cases.Target, CommandWords.Target, Backups.Target, Asked.Target, Addresses.Target, OnPaper.Target, Doors.Target,
    ];
}
