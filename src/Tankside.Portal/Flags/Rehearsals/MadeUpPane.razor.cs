using System.Globalization;
using Microsoft.AspNetCore.Components;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags.Rehearsals;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Shell.Charts;

namespace Tankside.Portal.Flags.Rehearsals;

/// <summary>A made-up tank as far as it is known, and once it was rung what the call found.</summary>
public sealed partial class MadeUpPane
{
    private const int ChartDays = 10;

    private LifeStage stage;
    private SafeBand safe = new(0, 0);
    private List<TemperaturePoint> water = [];
    private List<ClosedDays> closed = [];

    [Parameter, EditorRequired]
    public required WorkedMorning Morning { get; set; }

    [Parameter, EditorRequired]
    public required MadeUpTank Tank { get; set; }

    /// <summary>What can be done with it.</summary>
    [Parameter]
    public RenderFragment? ChildContent { get; set; }

    protected override void OnParametersSet()
    {
        var (record, clock) = (Tank.Record, Morning.Morning.Clock);
        stage = Morning.Stage(Tank);
        safe = StageBand.Of(stage, record.Limits);
        water = [.. record.Recent.Where(r => r.Seen.WaterC is not null && r.At > Morning.Now.AddDays(-ChartDays))
            .Select(r => new TemperaturePoint(clock.Local(r.At), r.Seen.WaterC!.Value))];
        if (Tank.Asked is { } asked)
        {
            water.Add(new TemperaturePoint(clock.Local(asked.At), WaterTemperature.ToC(asked.Typed, asked.Unit), Asked: true));
        }

        var last = clock.Day(Morning.Now).AddDays(1);
        closed = [.. Tank.Room.Calendar.ClosedRuns(last.AddDays(-ChartDays - 1), last).Select(r => new ClosedDays(r.First, r.Last))];
    }

    private static string Else(Observation seen)
    {
        List<string?> said =
        [
            seen.ChillerRunning == false ? "chiller not running" : null,
            seen.IceOnCoil == true ? "ice on the coil" : null,
            seen.Clear == false ? "not clear" : null,
            seen.Fungus == true ? "fungus" : null,
            seen.AmmoniaTotalMgL is { } ammonia ? $"ammonia {ammonia.ToString("0.##", CultureInfo.InvariantCulture)} mg/L" : null,
            seen.Ph is { } ph ? $"pH {ph.ToString("0.0", CultureInfo.InvariantCulture)}" : null,
            seen.Hatched is { } hatched ? $"hatched: {hatched.ToString().ToLowerInvariant()}" : null,
            seen.Note is { } note ? $"“{note}”" : null,
        ];
        return string.Join(", ", said.OfType<string>());
    }
}
