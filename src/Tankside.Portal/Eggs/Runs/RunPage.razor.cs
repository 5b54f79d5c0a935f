using Microsoft.AspNetCore.Components;
using Tankside.Hatchery.Eggs.Runs;
using Tankside.Portal.Accounts;

namespace Tankside.Portal.Eggs.Runs;

/// <summary>Which button of a run's page was pressed.</summary>
public sealed class DeedForm
{
    /// <summary>"plan", "off", "tell", "hold", or the id of a driver who drops out or comes back.</summary>
    public string? Deed { get; set; }
}

public sealed partial class RunPage(RunBoard board, PlanRun plan, TellStops tell, EditRun edit, EditStops stops, IEggGate gate)
{
    private RunView? view;
    private IReadOnlyList<(StopView Stop, string Missing)> noGo = [];

    [Parameter]
    public Guid RunId { get; set; }

    private CurrentUser Asking => CurrentUser.From(Http.User)!;

    private int Seconds => (int)Math.Max(0, (view!.Now - view.Run.PlanningSince!.Value).TotalSeconds);

    private int Longest => (int)(plan.AtWork(RunId)?.Longest ?? PlanPatience.Usual.Large).TotalSeconds;

    /// <summary>Another portal may be the one that is planning; then only the clock is known here.</summary>
    private string Best => plan.AtWork(RunId)?.Best is { } best
        ? $"The best so far drives {best.Driven} minutes{(best.Left > 0 ? $" and leaves {RunWords.Stops(best.Left)} out" : "")}." : "";

    private IReadOnlyList<StopView> Bad => [.. view!.Standing.Where(s => s.Arrival is { } a && ArrivalAlarm.IsRaised(a.Eggs, a.DeadOnArrival))];

    private IReadOnlyList<StopView> Loose => [.. view!.Standing.Where(s => s.Stop.DriverId is null && s.Stop.Dropped is null)];

    private IReadOnlyList<StopView> Gone => [.. view!.Stops.Where(s => s.Stop.OutAt is not null)];

    protected override async Task OnInitializedAsync()
    {
        view = await board.FindAsync(Asking, RunId, Http.RequestAborted);
        if (view is null)
        {
            Navigation.NotFound();
            return;
        }

        var ahead = view.Standing.Where(s => !s.Stop.ToHolding && view.Ticks.All(t => t.StopId != s.Stop.Id)).ToList();
        var missing = await gate.NoGoAsync(Asking, [.. ahead.Select(s => s.Tank.Id)], Http.RequestAborted);
        noGo = [.. ahead.Where(s => missing.ContainsKey(s.Tank.Id)).Select(s => (s, missing[s.Tank.Id]))];
    }

    private async Task DoAsync()
    {
        var cancel = Http.RequestAborted;
        Leave($"/runs/{RunId}", Input.Deed switch
        {
            "plan" => await plan.StartAsync(Asking, RunId, cancel),
            "off" => await plan.CallOffAsync(Asking, RunId, cancel),
            "hold" => await stops.HoldAsync(Asking, RunId, [.. noGo.Select(s => s.Stop.Stop.Id)], cancel),
            "tell" => await tell.HandleAsync(Asking, RunId, cancel),
            _ when Guid.TryParse(Input.Deed, out var driver) => await edit.TurnDriverAsync(Asking, RunId, driver, cancel),
            _ => new Notice(false, "No button was pressed that this page knows. Nothing was changed."),
        });
    }
}
