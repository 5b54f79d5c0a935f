using Microsoft.AspNetCore.Components;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Readings;
using Tankside.Portal.Shell.Charts;
using Tankside.Portal.Shell.Look;

namespace Tankside.Portal.Flags.AtTheTank;

/// <summary>The pictures of a tank from what its view already holds; nothing more is asked of the database.</summary>
public sealed partial class ClassTankPage
{
    private readonly List<StageMark> stages = [];
    private DateOnly today;
    private SafeBand safe = new(0, 0);
    private IReadOnlyList<TemperaturePoint> water = [];
    private IReadOnlyList<ClosedDays> closed = [];
    private IReadOnlyList<LossDay> losses = [];

    [Parameter, EditorRequired]
    public required Door Door { get; set; }

    [Parameter, EditorRequired]
    public required TankView View { get; set; }

    private FishNow Now => FishNow.Of(View, Words);

    private IEnumerable<string> Dates => stages.Select(s => s.Low == s.High
        ? Words.Of("date", CountWords.Capital(s.Name), Words.Day(s.Mid))
        : Words.Of("date.between", CountWords.Capital(s.Name), Words.Day(s.Low), Words.Day(s.High), Words.Day(s.Mid)));

    private ClassWords Words => Door.Words;

    protected override void OnParametersSet()
    {
        var clock = View.Record.Calendar.Clock;
        today = clock.Day(View.Now);
        stages.Clear();
        Add(Words["hatching"], Picture.Alevin, View.Development?.Hatch, View.Development?.HalfHatchedOn);
        Add(Words["swimming.up"], Picture.Fry, View.Development?.SwimUp, null);
        safe = StageBand.Of(View.Development?.Stage ?? LifeStage.Egg, View.Record.Limits);
        water = InTheTank.WaterHistory.Thinned([.. View.Record.Recent.Where(r => r.Seen.WaterC is not null)
            .Select(r => new TemperaturePoint(clock.Local(r.At), r.Seen.WaterC!.Value))]);
        losses = [.. View.Record.Days.Select(d => new LossDay(d.Day, d.Dead))];
        var last = stages.Select(s => s.High).Append(today).Max();
        closed = [.. View.Record.Calendar.ClosedRuns(today.AddDays(-90), last.AddDays(7)).Select(r => new ClosedDays(r.First, r.Last))];
    }

    private void Add(string name, Picture picture, StageForecast? forecast, DateOnly? seen)
    {
        if (seen is { } day)
        {
            stages.Add(new StageMark(name, day, day, day, picture));
        }
        else if (forecast is { } f)
        {
            stages.Add(new StageMark(name, f.Low80, f.Mid, f.High80, picture));
        }
    }
}
