using System.Globalization;
using Microsoft.AspNetCore.Components;

namespace Tankside.Portal.Shell.Charts;

/// <summary>Water temperature inside its safe band, gaps left open, with an optional forecast fan to a limit.</summary>
public partial class TemperatureChart
{
    /// <summary>Longer than this without a reading and the line stays open: nobody knows what the water did.</summary>
    private static readonly TimeSpan Gap = TimeSpan.FromHours(36);

    private const double Top = 16, Bottom = 208, Height = 246;

    private DateAxis time = new(DateTime.UnixEpoch, DateTime.UnixEpoch.AddDays(1));
    private ValueAxis degrees = ValueAxis.For([0, 1], Top, Bottom);
    private List<TemperaturePoint> shown = [];
    private FanCrossing? crossing;

    /// <summary>Readings in any order.</summary>
    [Parameter, EditorRequired]
    public IReadOnlyList<TemperaturePoint> Points { get; set; } = [];

    /// <summary>The text alternative: one sentence that says what the picture shows.</summary>
    [Parameter, EditorRequired]
    public string Label { get; set; } = "";

    /// <summary>A visible heading above the chart, or none.</summary>
    [Parameter]
    public string? Caption { get; set; }

    [Parameter]
    public SafeBand? Safe { get; set; }

    [Parameter]
    public double? SetPointC { get; set; }

    /// <summary>The stage's limit; drawn only together with <see cref="Fan"/> or when given alone as a line.</summary>
    [Parameter]
    public double? LimitC { get; set; }

    /// <summary>The forecast, oldest first; empty for none.</summary>
    [Parameter]
    public IReadOnlyList<FanPoint> Fan { get; set; } = [];

    /// <summary>The corners of a planned course of the set-point, oldest first; empty for none.</summary>
    [Parameter]
    public IReadOnlyList<TemperaturePoint> Planned { get; set; } = [];

    [Parameter]
    public IReadOnlyList<ClosedDays> Closed { get; set; } = [];

    /// <summary>How many days before the last point to show; by default 1 with a forecast (hours matter), else all.</summary>
    [Parameter]
    public int? Days { get; set; }

    /// <summary>True for °F on the axis and in the words.</summary>
    [Parameter]
    public bool UnitF { get; set; }

    [Parameter]
    public TemperatureWords Words { get; set; } = new();

    /// <summary>Language of dates and numbers in words; the reader's own by default.</summary>
    [Parameter]
    public CultureInfo? Culture { get; set; }

    private CultureInfo Reader => Culture ?? CultureInfo.CurrentCulture;

    private string Unit => UnitF ? "°F" : "°C";

    protected override void OnParametersSet()
    {
        shown = [.. Points.OrderBy(point => point.At)];
        var days = Days ?? (Fan.Count > 0 ? 1 : null as int?);
        if (days is not null && shown.Count > 0)
            shown.RemoveAll(point => point.At < shown[^1].At.AddDays(-days.Value));
        var moments = shown.Concat(Planned).Select(point => point.At).Concat(Fan.Select(point => point.At)).ToList();
        if (moments.Count > 0)
        {
            var (from, to) = (moments.Min(), moments.Max());
            var edge = TimeSpan.FromHours(Math.Max((to - from).TotalHours * 0.015, 1));
            time = new(from - edge, to + edge);
        }

        degrees = ValueAxis.For(Everything().Select(Shown), Top, Bottom, smallestStep: 1);
        crossing = LimitC is { } limit ? FanCrossing.Of(Fan, limit) : null;
    }

    private IEnumerable<double> Everything()
    {
        foreach (var point in shown.Concat(Planned)) yield return point.C;
        if (Safe is not null)
        {
            yield return Safe.LowC;
            yield return Safe.HighC;
        }

        if (LimitC is { } limit) yield return limit + 0.5;
        foreach (var point in Fan)
        {
            yield return NearLimit(point.LowC);
            yield return NearLimit(point.HighC);
        }
    }

    /// <summary>A fan may run far past the limit; what comes after the fish are lost needs no height on the page.</summary>
    private double NearLimit(double celsius) => LimitC is { } limit
        ? Math.Clamp(celsius, Math.Min(limit, Fan[0].MidC) - 1.5, Math.Max(limit, Fan[0].MidC) + 1.5)
        : celsius;

    /// <summary>The confirmed readings, cut wherever more than <see cref="Gap"/> lies between two of them.</summary>
    private List<List<TemperaturePoint>> Stretches()
    {
        var stretches = new List<List<TemperaturePoint>>();
        foreach (var point in shown.Where(point => !point.Asked))
        {
            if (stretches.Count == 0 || point.At - stretches[^1][^1].At > Gap) stretches.Add([]);
            stretches[^1].Add(point);
        }

        return stretches;
    }

    private double Shown(double celsius) => UnitF ? celsius * 9 / 5 + 32 : celsius;

    private double Y(double celsius) => Math.Clamp(degrees.Y(Shown(celsius)), 0, Bottom);

    private string Line(IEnumerable<(DateTime At, double C)> points) =>
        Svg.Path(points.Select(point => (time.Share(point.At), Y(point.C))));

    private string FanArea() =>
        Line([.. Fan.Select(point => (point.At, point.HighC)), .. Fan.Reverse().Select(point => (point.At, point.LowC))]);

    private string Degrees(double celsius) => Shown(celsius).ToString("0.#", Reader) + " " + Unit;

    private string Tick(DateTime at) =>
        at.ToString(!time.ShowsHours ? "d MMM" : at.TimeOfDay == TimeSpan.Zero ? "ddd d" : "HH:mm", Reader);

    private List<KeyItem> Key()
    {
        List<KeyItem> key = [KeyItem.Line(Words.Water)];
        if (Safe is not null) key.Add(KeyItem.Ground($"{Words.Safe} {Degrees(Safe.LowC)} – {Degrees(Safe.HighC)}"));
        if (SetPointC is { } set) key.Add(KeyItem.Dots($"{Words.SetPoint} {Degrees(set)}"));
        if (Planned.Count > 1) key.Add(KeyItem.Dash(Words.Planned));
        if (Fan.Count > 1) key.Add(KeyItem.Fan(Words.Forecast));
        if (shown.Any(point => point.Asked)) key.Add(KeyItem.Ring(Words.Asked));
        if (time.Closed(Closed).Any()) key.Add(KeyItem.Closed(Words.Closed));
        return key;
    }

    private string CrossingWords(FanCrossing found) => found.Earliest <= Fan[0].At
        ? Words.Passed
        : found.Latest is { } latest
            ? string.Format(Reader, Words.Between, Clock(found.Earliest), Clock(latest))
            : string.Format(Reader, Words.From, Clock(found.Earliest));

    private string Clock(DateTime at) => at.ToString(at.Date == Fan[0].At.Date ? "HH:mm" : "ddd HH:mm", Reader);
}
