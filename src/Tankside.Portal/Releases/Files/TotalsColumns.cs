using System.Globalization;
using Tankside.Hatchery.Releases;

namespace Tankside.Portal.Releases.Files;

/// <summary>A measured number, written as it stands.</summary>
public sealed record PlainNumber(string Text);

/// <summary>One column of the season totals file. A value is a text, a whole number, a day, a percentage, or nothing.</summary>
public sealed record TotalsColumn(string Name, Func<SeasonTotals, TankTotals, object?> Of);

/// <summary>The columns of the season totals file, in their order; every file takes its cells from here.</summary>
public static class TotalsColumns
{
    public static IReadOnlyList<TotalsColumn> All { get; } =
    [
        new("programme", (s, _) => s.Programme),
        new("season", (s, _) => s.Season),
        new("school", (_, t) => t.School),
        new("classroom", (_, t) => t.Classroom),
        new("tank", (_, t) => t.Tank),
        new("lot", (_, t) => t.Lot),
        new("species", (_, t) => t.Species),
        .. Counts.Select(c => new TotalsColumn(c.Name, (_, t) => c.Of(t.Balance))),
        new("hatch_date", (_, t) => t.HatchDate),
        new("first_release_date", (_, t) => t.FirstReleaseDate),
        new("release_site", (_, t) => t.ReleaseSite),
        new("permit", (_, t) => t.Permit),
        new("survival_percent", (_, t) => Rounded(t.Survival.Percent)),
        new("survival_low", (_, t) => Rounded(t.Survival.Low)),
        new("survival_high", (_, t) => Rounded(t.Survival.High)),
    ];

    /// <summary>Every way in and every end, named as the file names them.</summary>
    public static IReadOnlyList<(string Name, Func<TankBalance, int> Of)> Counts =>
    [
        ("eggs_received", b => b.Received), ("dead_on_arrival", b => b.DeadOnArrival), ("egg_losses", b => b.EggLosses),
        ("alevin_losses", b => b.AlevinLosses), ("fry_losses", b => b.FryLosses), ("put_down", b => b.PutDown), ("sampled", b => b.Sampled),
        ("transferred_in", b => b.TransferredIn), ("transferred_out", b => b.TransferredOut), ("released", b => b.Released),
        ("still_in_tank", b => b.StillInTank), ("unaccounted", b => b.Unaccounted),
    ];

    /// <summary>To the two decimals that every file shows, so that all hold the same number.</summary>
    public static decimal? Rounded(double? percent) =>
        percent is { } value ? decimal.Parse(value.ToString("0.00", CultureInfo.InvariantCulture), CultureInfo.InvariantCulture) : null;

    /// <summary>A value as plain text: the same in every country.</summary>
    public static string Plain(object? value) => value switch
    {
        null => "",
        string text => text,
        PlainNumber number => number.Text,
        int count => count.ToString(CultureInfo.InvariantCulture),
        decimal percent => percent.ToString("0.00", CultureInfo.InvariantCulture),
        DateOnly day => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
        _ => throw new ArgumentOutOfRangeException(nameof(value), value, "no kind of cell"),
    };
}
