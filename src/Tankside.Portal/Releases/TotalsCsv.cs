using System.Globalization;
using System.Text;
using Tankside.Hatchery.Releases;

namespace Tankside.Portal.Releases;

/// <summary>
/// The season totals file: UTF-8 with a byte order mark, RFC 4180, one row a tank, numbers plain. A text that a spreadsheet would run as a
/// formula is written behind an apostrophe.
/// </summary>
public static class TotalsCsv
{
    public const string Header =
        "programme,season,school,classroom,tank,lot,species,eggs_received,dead_on_arrival,egg_losses,alevin_losses,fry_losses,put_down,sampled,"
        + "transferred_in,transferred_out,released,still_in_tank,unaccounted,hatch_date,first_release_date,release_site,permit,"
        + "survival_percent,survival_low,survival_high";

    public static byte[] Write(SeasonTotals totals)
    {
        var text = new StringBuilder(Header).Append("\r\n");
        foreach (var tank in totals.Tanks)
        {
            text.AppendJoin(',', Cells(totals, tank).Select(c => c.IsText ? Text(c.Value) : c.Value)).Append("\r\n");
        }

        return [.. Encoding.UTF8.Preamble, .. Encoding.UTF8.GetBytes(text.ToString())];
    }

    /// <summary>A tank's row in the order of the header, as the page shows it; the file adds its quotes and apostrophes.</summary>
    public static IEnumerable<Cell> Cells(SeasonTotals totals, TankTotals tank)
    {
        var b = tank.Balance;
        var survival = tank.Survival;
        string?[] names = [totals.Programme, totals.Season, tank.School, tank.Classroom, tank.Tank, tank.Lot, tank.Species];
        int[] counts =
        [
            b.Received, b.DeadOnArrival, b.EggLosses, b.AlevinLosses, b.FryLosses, b.PutDown, b.Sampled,
            b.TransferredIn, b.TransferredOut, b.Released, b.StillInTank, b.Unaccounted,
        ];
        return names.Select(Words)
            .Concat(counts.Select(c => new Cell(c.ToString(CultureInfo.InvariantCulture), IsText: false)))
            .Concat([new(Date(tank.HatchDate), false), new(Date(tank.FirstReleaseDate), false), Words(tank.ReleaseSite), Words(tank.Permit)])
            .Concat(new[] { survival.Percent, survival.Low, survival.High }.Select(p => new Cell(Percent(p), IsText: false)));

        static Cell Words(string? text) => new(text ?? "", IsText: true);
    }

    /// <param name="IsText">Words that somebody typed, as against numbers and dates of ours.</param>
    public sealed record Cell(string Value, bool IsText);

    private static string Date(DateOnly? day) => day?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) ?? "";

    private static string Percent(double? percent) => percent?.ToString("0.00", CultureInfo.InvariantCulture) ?? "";

    private static string Text(string text)
    {
        var safe = text is ['=' or '+' or '-' or '@' or '\t' or '\r' or '\n', ..] ? "'" + text : text;
        return safe.AsSpan().IndexOfAny(",\"\r\n") >= 0 ? $"\"{safe.Replace("\"", "\"\"", StringComparison.Ordinal)}\"" : safe;
    }
}
