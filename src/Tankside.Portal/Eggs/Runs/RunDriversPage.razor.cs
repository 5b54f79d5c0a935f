using Microsoft.AspNetCore.Components;
using Tankside.Portal.Accounts;
using Tankside.Portal.People;

namespace Tankside.Portal.Eggs.Runs;

public sealed partial class RunDriversPage(RunBoard board, EditRun edit, EditTerms terms, ProgrammePeople people)
{
    private readonly List<string> placeTroubles = [];
    private RunView? view;
    private IReadOnlyList<(Guid Id, string Name)> members = [];

    [Parameter]
    public Guid RunId { get; set; }

    [SupplyParameterFromForm(FormName = "place")]
    public PlaceForm? Place { get; set; }

    /// <summary>"place" or "driver" and its id.</summary>
    [SupplyParameterFromForm(FormName = "take-out")]
    public string? TakenOut { get; set; }

    private CurrentUser Asking => CurrentUser.From(Http.User)!;

    private string Answer => (view!.Drivers.Count(d => d.OutAt is null), view.Places.Count) switch
    {
        (_, 0) => "Where are the eggs loaded?",
        (0, _) => "Who drives?",
        (1, _) => "One driver.",
        var (n, _) => $"{n} drivers.",
    };

    protected override async Task OnInitializedAsync()
    {
        view = await board.FindAsync(Asking, RunId, Http.RequestAborted);
        if (view is null)
        {
            Navigation.NotFound();
            return;
        }

        members = [.. (await people.MembersAsync(Asking, Http.RequestAborted)).Select(m => (m.PersonId, m.Name)).Distinct()];
        if (Input.From is null && !IsPost)
        {
            (Input.From, Input.Until, Input.Eggs) = ("07:00", "15:00", "1500");
        }
    }

    private async Task AddDriverAsync() => LeaveWith(await edit.AddDriverAsync(Asking, RunId, Input, Refuse, Http.RequestAborted));

    private async Task AddPlaceAsync() => LeaveWith(await edit.AddPlaceAsync(Asking, RunId, Place ?? new PlaceForm(), (_, why) => placeTroubles.Add(why), Http.RequestAborted));

    private async Task TakeOutAsync() => LeaveWith(TakenOut?.Split(' ') switch
    {
        ["place", var place] when Guid.TryParse(place, out var id) => await terms.RemovePlaceAsync(Asking, RunId, id, Http.RequestAborted),
        ["driver", var driver] when Guid.TryParse(driver, out var id) => await terms.RemoveDriverAsync(Asking, RunId, id, Http.RequestAborted),
        _ => new Notice(false, "No button was pressed that this page knows. Nothing was changed."),
    });

    private void LeaveWith(Notice? notice)
    {
        if (notice is not null)
        {
            Leave($"/runs/{RunId}/drivers", notice);
        }
    }
}
