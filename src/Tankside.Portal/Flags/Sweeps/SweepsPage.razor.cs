using Microsoft.AspNetCore.Components;
using Tankside.Hatchery.Places;
using Tankside.Portal.Accounts;

namespace Tankside.Portal.Flags.Sweeps;

public sealed partial class SweepsPage(MarkArea mark, AreaCovers areas)
{
    private IReadOnlyList<AreaCover> covers = [];
    private IReadOnlyList<SweepLine> standing = [], ended = [];

    [Inject]
    private OpenSweeps Open { get; set; } = null!;

    private CurrentUser Asking => CurrentUser.From(Http.User)!;

    private string Answer => standing.Count switch
    {
        0 => "No area is marked.",
        1 => $"{standing[0].Words(Open.Now)}: {standing[0].Count.Answered} of {CountWords.Count(standing[0].Count.Marked, "school", "schools")} answered.",
        var n => $"{n} areas are marked.",
    };

    protected override async Task OnInitializedAsync()
    {
        covers = await areas.LoadAsync(Asking.ProgrammeId, Http.RequestAborted);
        standing = await Open.StandingAsync(Asking.ProgrammeId, Http.RequestAborted);
        ended = await Open.EndedAsync(Asking.ProgrammeId, Http.RequestAborted);
        Input.Id = Input.Id == Guid.Empty ? Guid.NewGuid() : Input.Id;
    }

    private static string Means(SweepReason reason) => reason switch
    {
        SweepReason.Snow => "Buildings are shut: these days are no school days.",
        SweepReason.PowerCut => "Every tank not seen since is asked for at once, by the hours it has.",
        SweepReason.Flood => "Buildings are shut: these days are no school days.",
        SweepReason.Other => "Ask everybody; silence is judged as ever.",
    };

    private async Task MarkAsync()
    {
        if (await mark.HandleAsync(Asking, Input, Refuse, Http.RequestAborted) is { } id)
        {
            Leave($"/sweeps/{id}#message", new Notice(true, "Marked. The tanks are judged by it from now on. Nobody has been written to yet."));
        }
    }
}
