using Microsoft.AspNetCore.Components;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Portal.Accounts;

namespace Tankside.Portal.Places.Labels;

/// <summary>Asks once more before a code is void: nothing brings it back.</summary>
public sealed partial class ReplaceCodePage(SchoolLabels labels, ReplaceCode replace, TimeProvider time)
{
    private LabelledTank? tank;
    private string school = "";
    private Programme programme = null!;

    [Parameter]
    public string Code { get; set; } = "";

    private CurrentUser Asking => CurrentUser.From(Http.User)!;

    protected override async Task LoadAsync()
    {
        var book = await labels.LoadAsync(Asking, Http.RequestAborted);
        programme = book.Programme;
        var at = book.Schools.FirstOrDefault(s => s.Tanks.Any(t => t.Tank.Code == Code));
        if (at is null)
        {
            Http.Response.StatusCode = StatusCodes.Status404NotFound;
            return;
        }

        (tank, school) = (at.Tanks.Single(t => t.Tank.Code == Code), at.Name);
    }

    private async Task ReplaceAsync()
    {
        switch (await replace.HandleAsync(Asking, Code, Input.Replaces, Http.RequestAborted))
        {
            case CodeOutcome.Issued(var code):
                Leave($"/labels?made={Code}#notice", new Notice(true, Told(code)));
                break;
            case CodeOutcome.Crossed:
                Leave($"/labels/{Code}/replace", new Notice(
                    false, Say.Of("Somebody else replaced the code of {0} meanwhile. Nothing of yours was done. The one that is valid now stands below.", Code)));
                break;
            case CodeOutcome.NotFound:
                tank = null;
                Http.Response.StatusCode = StatusCodes.Status404NotFound;
                break;
        }
    }

    private string Told(RoomCode code)
    {
        var at = ProgrammeClock.Of(programme.TimeZone).Local(time.GetUtcNow().UtcDateTime).ToString("HH:mm", System.Globalization.CultureInfo.InvariantCulture);
        return Input.Replaces is null
            ? Say.Of("{0} has a code now: {1}. Print its label and put it on the tank.", Code, RoomCodes.Grouped(code.Code))
            : Say.Of("The old code of {0} stopped at {1}. The new one is {2}: print its label and put it over the old one.", Code, at, RoomCodes.Grouped(code.Code));
    }
}
