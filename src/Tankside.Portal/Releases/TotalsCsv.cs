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
            text.AppendJoin(',', Cells(totals, tank)).Append("\r\n");
        }

        return [.. Encoding.UTF8.Preamble, .. Encoding.UTF8.GetBytes(text.ToString())];
    }

    private static IEnumerable<string> Cells(SeasonTotals totals, TankTotals tank)
    {
        var b = tank.Balance;
        var survival = tank.Survival;
        string?[] names = [totals.Programme, totals.Season, tank.School, tank.Classroom, tank.Tank, tank.Lot, tank.Species];
        int[] counts =
        [
            b.Received, b.DeadOnArrival, b.EggLosses, b.AlevinLosses, b.FryLosses, b.PutDown, b.Sampled,
            b.TransferredIn, b.TransferredOut, b.Released, b.StillInTank, b.Unaccounted,
        ];
        return names.Select(Text)
            .Concat(counts.Select(c => c.ToString(CultureInfo.InvariantCulture)))
            .Concat([Date(tank.HatchDate), Date(tank.FirstReleaseDate), Text(tank.ReleaseSite), Text(tank.Permit)])
            .Concat([Percent(survival.Percent), Percent(survival.Low), Percent(survival.High)]);
    }

    private static string Date(DateOnly? day) => day?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) ?? "";

    private static string Percent(double? percent) => percent?.ToString("0.00", CultureInfo.InvariantCulture) ?? "";

    private static string Text(string? text)
    {
        var safe = text is [var first, ..] && first is '=' or '+' or '-' or '@' or '\t' or '\r' or '\n' ? "'" + text : text ?? "";
        return safe.AsSpan().IndexOfAny(",\"\r\n") >= 0 ? $"\"{safe.Replace("\"", "\"\"", StringComparison.Ordinal)}\"" : safe;
    }
}
