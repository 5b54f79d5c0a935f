using System.Globalization;

namespace Tankside.Hatchery.Eggs;

/// <summary>Daily temperatures as they are stored: °C, invariant, a semicolon between.</summary>
public static class DailyText
{
    /// <summary>More days than any egg needs from spawning to the road.</summary>
    public const int MostDays = 250;

    public static string Write(IEnumerable<double> daily) => string.Join(';', daily.Select(c => Math.Round(c, 2).ToString(CultureInfo.InvariantCulture)));

    public static bool TryRead(string text, out IReadOnlyList<double> daily)
    {
        var read = new List<double>();
        foreach (var part in text.Split(';', StringSplitOptions.RemoveEmptyEntries))
        {
            if (!double.TryParse(part, NumberStyles.Float, CultureInfo.InvariantCulture, out var c) || !double.IsFinite(c))
            {
                daily = [];
                return false;
            }

            read.Add(c);
        }

        daily = read;
        return read.Count is > 0 and <= MostDays;
    }
}
