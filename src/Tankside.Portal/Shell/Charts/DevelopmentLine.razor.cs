using System.Globalization;
using Microsoft.AspNetCore.Components;
using Tankside.Portal.Shell.Look;

namespace Tankside.Portal.Shell.Charts;

/// <summary>Development from egg to fry on the school's own calendar, with the tank's place on it.</summary>
public partial class DevelopmentLine
{
    private const double Water = 112, Days = 166, Height = 208;

    private DateAxis time = new(DateTime.UnixEpoch, DateTime.UnixEpoch.AddDays(1));
    private IReadOnlyList<ClosedDays> shaded = [];
    private List<StageName> names = [];
    private bool crowded;

    /// <summary>The left end of the line: the day the eggs came, or were fertilised.</summary>
    [Parameter, EditorRequired]
    public DateOnly Start { get; set; }

    /// <summary>The word at the left end, such as "eggs came".</summary>
    [Parameter, EditorRequired]
    public string StartName { get; set; } = "";

    /// <summary>The drawing at the left end.</summary>
    [Parameter]
    public Picture StartDrawn { get; set; } = Picture.EyedEgg;

    /// <summary>Hatch, swim-up and what else lies ahead, in order of time.</summary>
    [Parameter, EditorRequired]
    public IReadOnlyList<StageMark> Stages { get; set; } = [];

    [Parameter, EditorRequired]
    public DateOnly Today { get; set; }

    /// <summary>The true sentence under the line, such as "About 9 of 10 days to hatching are done."</summary>
    [Parameter]
    public string? Place { get; set; }

    /// <summary>The text alternative: one sentence that says what the picture shows.</summary>
    [Parameter, EditorRequired]
    public string Label { get; set; } = "";

    [Parameter]
    public string? Caption { get; set; }

    /// <summary>Closures; weekends are added unless <see cref="ShadeWeekends"/> is false.</summary>
    [Parameter]
    public IReadOnlyList<ClosedDays> Closed { get; set; } = [];

    [Parameter]
    public bool ShadeWeekends { get; set; } = true;

    [Parameter]
    public DevelopmentWords Words { get; set; } = new();

    [Parameter]
    public CultureInfo? Culture { get; set; }

    private CultureInfo Reader => Culture ?? CultureInfo.CurrentCulture;

    private double Now => time.Share(Today.ToDateTime(new TimeOnly(12, 0)));

    protected override void OnParametersSet()
    {
        var last = Stages.Select(stage => stage.High).Append(Today).Append(Start.AddDays(7)).Max();
        var edge = Math.Max((last.DayNumber - Start.DayNumber) / 16, 2);
        time = new(Start.AddDays(-edge).ToDateTime(TimeOnly.MinValue), last.AddDays(edge + 1).ToDateTime(TimeOnly.MinValue));
        SetNames();
        shaded = ShadeWeekends ? [.. Closed, .. Weekends()] : Closed;
    }

    /// <summary>Names that would run into the one before stand a row higher, and then the drawings give way.</summary>
    private void SetNames()
    {
        names = [];
        double lastLow = -1, lastRaised = -1;
        var start = new StageName(Middle(Start), StartName, Short(Start), StartDrawn, false);
        var ahead = Stages.Select(stage => new StageName(Middle(stage.Mid), stage.Name, Range(stage), stage.Drawn, false));
        foreach (var name in ahead.Prepend(start))
        {
            var raised = name.Share - lastLow < 0.28 && lastLow >= lastRaised;
            names.Add(name with { Raised = raised });
            if (raised) lastRaised = name.Share;
            else lastLow = name.Share;
        }

        crowded = names.Any(name => name.Raised);
    }

    private IEnumerable<ClosedDays> Weekends()
    {
        var day = DateOnly.FromDateTime(time.From);
        day = day.AddDays(-(((int)day.DayOfWeek + 1) % 7));
        for (; day <= DateOnly.FromDateTime(time.To); day = day.AddDays(7))
            if (!Closed.Any(stretch => stretch.From <= day && stretch.To >= day.AddDays(1)))
                yield return new(day, day.AddDays(1));
    }

    private double Middle(DateOnly day) => time.Share(day.ToDateTime(new TimeOnly(12, 0)));

    private string Short(DateOnly day) => day.ToString("d MMM", Reader);

    private string Long(DateOnly day) => day.ToString("ddd d MMM yyyy", Reader);

    private string Range(StageMark stage) =>
        stage.Low == stage.High ? Short(stage.Mid) : $"{Short(stage.Low)} – {Short(stage.High)}";

    private List<KeyItem> Key() => [KeyItem.Ground(Words.Interval), KeyItem.Closed(Words.Closed)];

    private sealed record StageName(double Share, string Text, string Dates, Picture? Drawn, bool Raised);
}
