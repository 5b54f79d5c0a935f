using System.Globalization;
using Microsoft.AspNetCore.Components;
using Tankside.Hatchery.Eggs.Runs;
using Tankside.Portal.Accounts;
using Tankside.Portal.Eggs.Runs;

namespace Tankside.Portal.Releases.Arrivals;

public sealed partial class ArrivalPage(ReceivePack receive)
{
    private ArrivingPack? stop;

    [Parameter]
    public Guid RunId { get; set; }

    [Parameter]
    public Guid StopId { get; set; }

    private static IReadOnlyList<string> Steps => Tempering.Steps;

    private static string NotCold => Tempering.NotCold;

    private static string Caution => Tempering.Caution;

    private CurrentUser Asking => CurrentUser.From(Http.User)!;

    private string Answer => stop switch
    {
        { Received: { } receipt } when ArrivalAlarm.IsRaised(receipt.Eggs, receipt.DeadOnArrival) =>
            $"{Figures.Of(receipt.DeadOnArrival)} of {Figures.Of(receipt.Eggs, "egg", "eggs")} were dead on arrival: the coordinator is told.",
        { Received: { } receipt } => $"{Figures.Of(receipt.Eggs, "egg", "eggs")} arrived at {stop.Tank}.",
        _ => $"{Figures.Of(stop!.Eggs, "egg", "eggs")} of lot {stop.Lot} for {stop.Tank}: what arrived?",
    };

    protected override async Task OnInitializedAsync()
    {
        stop = await receive.FindAsync(Asking, RunId, StopId, Http.RequestAborted);
        if (stop is null)
        {
            Navigation.NotFound();
        }
        else if (!IsPost)
        {
            var local = stop.Season.Clock.Local(stop.Season.Now);
            Input.Id = Guid.NewGuid();
            Input.Day = local.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
            Input.Time = local.ToString("HH:mm", CultureInfo.InvariantCulture);
            Input.Unit = stop.Season.Programme.ScreenUnit.ToString();
            Input.CountedBy = nameof(Hatchery.Eggs.CountMethod.Photo);
        }
    }

    private async Task EnterAsync()
    {
        if (await receive.HandleAsync(Asking, stop!, Input, Refuse, Http.RequestAborted) is { } notice)
        {
            Leave($"/runs/{RunId}/stops/{StopId}/arrival", notice);
        }
    }
}
