using System.Globalization;
using Microsoft.AspNetCore.Components;

namespace Tankside.Portal.Shell.Charts;

/// <summary>Losses a day as bars, with the line of what would be ordinary.</summary>
public partial class LossChart
{
    private const double Top = 24, Bottom = 164, Height = 200;

    private List<LossDay> shown = [];
    private DateAxis time = new(DateTime.UnixEpoch, DateTime.UnixEpoch.AddDays(1));
    private ValueAxis count = ValueAxis.For([0, 1], Top, Bottom);

    /// <summary>One entry a day, in any order; a missing day is left open.</summary>
    [Parameter, EditorRequired]
    public IReadOnlyList<LossDay> Days { get; set; } = [];

    /// <summary>The text alternative: one sentence that says what the picture shows.</summary>
    [Parameter, EditorRequired]
    public string Label { get; set; } = "";

    [Parameter]
    public string? Caption { get; set; }

    [Parameter]
    public LossWords Words { get; set; } = new();

    [Parameter]
    public CultureInfo? Culture { get; set; }

    private CultureInfo Reader => Culture ?? CultureInfo.CurrentCulture;

    protected override void OnParametersSet()
    {
        shown = [.. Days.OrderBy(day => day.Day)];
        if (shown.Count > 0)
            time = new(shown[0].Day.ToDateTime(TimeOnly.MinValue), shown[^1].Day.AddDays(1).ToDateTime(TimeOnly.MinValue));
        var highest = shown.SelectMany(day => new[] { day.Removed ?? 0, day.Expected ?? 0 });
        count = ValueAxis.For([0, 4, .. highest], Top, Bottom, smallestStep: 1);
    }

    private double Left(LossDay day) => time.Share(day.Day.ToDateTime(TimeOnly.MinValue).AddHours(3));

    private double Middle(LossDay day) => time.Share(day.Day.ToDateTime(new TimeOnly(12, 0)));

    private double Wide => time.Share(time.From.AddHours(18));

    /// <summary>Only the largest and the latest bar carry their number; the rest is in the table.</summary>
    private bool IsNamed(LossDay day) =>
        day.Removed > 0
        && (ReferenceEquals(day, shown.Last(it => it.Removed is not null)) || day.Removed == shown.Max(it => it.Removed));

    /// <summary>The expected line as steps, one a day, cut where there is no expectation.</summary>
    private IEnumerable<string> ExpectedSteps()
    {
        List<(double Share, double Y)> steps = [];
        foreach (var day in shown)
        {
            if (day.Expected is not { } expected)
            {
                if (steps.Count > 0) yield return Svg.Path(steps);
                steps = [];
                continue;
            }

            steps.Add((time.Share(day.Day), count.Y(expected)));
            steps.Add((time.Share(day.Day.AddDays(1)), count.Y(expected)));
        }

        if (steps.Count > 0) yield return Svg.Path(steps);
    }

    private List<KeyItem> Key()
    {
        List<KeyItem> key = [KeyItem.Bar(Words.Removed)];
        if (shown.Any(day => day.Expected is not null)) key.Add(KeyItem.Dash(Words.Expected));
        if (shown.Any(day => day.Removed is null)) key.Add(new(Words.NotCounted, "in-soft", NotCountedMark));
        return key;
    }

    private const string NotCountedMark = """<path d="M9 3l8 8M17 3l-8 8" stroke="currentColor" stroke-width="2"/>""";
}
