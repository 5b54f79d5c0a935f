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
            Say.Of("{0} of {1} were dead on arrival: the coordinator is told.", Figures.Of(receipt.DeadOnArrival), Say.Count(receipt.Eggs, "{0} egg", "{0} eggs")),
        { Received: { } receipt } => Say.Count(receipt.Eggs, "{0} egg arrived at {1}.", "{0} eggs arrived at {1}.", stop.Tank),
        _ => Say.Count(stop!.Eggs, "{0} egg of lot {1} for {2}: what arrived?", "{0} eggs of lot {1} for {2}: what arrived?", stop.Lot, stop.Tank),
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
