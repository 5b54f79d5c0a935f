using System.Globalization;

namespace Tankside.Portal.Shell.Charts;

/// <summary>Numbers as SVG attributes want them: a decimal comma there would break the drawing.</summary>
internal static class Svg
{
    public static string N(double value) => value.ToString("0.##", CultureInfo.InvariantCulture);

    /// <summary>A length as a share of the drawing's width, so that the chart stretches and its letters don't.</summary>
    public static string Percent(double share) => (share * 100).ToString("0.###", CultureInfo.InvariantCulture) + "%";

    /// <summary>Corner points of a line or area whose x runs from 0 to 1000 in a stretched inner drawing.</summary>
    public static string Path(IEnumerable<(double Share, double Y)> corners) =>
        string.Join(' ', corners.Select(corner => N(corner.Share * 1000) + "," + N(corner.Y)));

    /// <summary>Keeps a label inside the drawing by turning it inwards near an edge.</summary>
    public static string Anchor(double share) => share switch { < 0.14 => "start", > 0.86 => "end", _ => "middle" };
}
