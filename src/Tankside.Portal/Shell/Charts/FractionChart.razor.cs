using System.Globalization;
using Microsoft.AspNetCore.Components;

namespace Tankside.Portal.Shell.Charts;

/// <summary>How far the fish are on the way to a stage, day by day, with a fan that says how sure that is.</summary>
public partial class FractionChart
{
    private const double Top = 24, Bottom = 188, Height = 226;

    /// <summary>To a little past the stage, %; what the fan does beyond needs no height on the page and is cut off.</summary>
    private static readonly ValueAxis Percents = new(0, 125, 25, Top, Bottom);

    private List<FractionPoint> shown = [];
    private DateAxis time = new(DateTime.UnixEpoch, DateTime.UnixEpoch.AddDays(1));

    /// <summary>One entry a day, in any order.</summary>
    [Parameter, EditorRequired]
    public IReadOnlyList<FractionPoint> Points { get; set; } = [];

    [Parameter, EditorRequired]
    public DateOnly Today { get; set; }

    /// <summary>What 100% is, such as "half have hatched".</summary>
    [Parameter, EditorRequired]
    public string There { get; set; } = "";

    /// <summary>The text alternative: one sentence that says what the picture shows.</summary>
    [Parameter, EditorRequired]
    public string Label { get; set; } = "";

    [Parameter]
    public string? Caption { get; set; }

    [Parameter]
    public IReadOnlyList<ClosedDays> Closed { get; set; } = [];

    [Parameter]
    public FractionWords Words { get; set; } = new();

    [Parameter]
    public CultureInfo? Culture { get; set; }

    private CultureInfo Reader => Culture ?? CultureInfo.CurrentCulture;

    private bool AtRight => time.Share(Today) > 0.8;

    protected override void OnParametersSet()
    {
        shown = [.. Points.OrderBy(point => point.Day)];
        if (shown.Count == 0) return;
        time = new(shown[0].Day.ToDateTime(TimeOnly.MinValue), shown[^1].Day.AddDays(1).ToDateTime(TimeOnly.MinValue));
    }

    private static double Y(double fraction) => Percents.Y(fraction * 100);

    private string Line(IEnumerable<FractionPoint> points) => Svg.Path(points.Select(point => (time.Share(point.Day), Y(point.Mid))));

    private string Fan() => Svg.Path([
        .. shown.Select(point => (time.Share(point.Day), Y(point.High))),
        .. shown.AsEnumerable().Reverse().Select(point => (time.Share(point.Day), Y(point.Low))),
    ]);

    private string Percent(double fraction) => (fraction * 100).ToString("0", Reader) + "%";

    private List<KeyItem> Key()
    {
        List<KeyItem> key = [KeyItem.Line(Words.SoFar), KeyItem.Dash(Words.ToCome), KeyItem.Fan(Words.Interval)];
        if (time.Closed(Closed).Any()) key.Add(KeyItem.Closed(Words.Closed));
        return key;
    }
}
