using System.Globalization;
using Microsoft.AspNetCore.Components;
using Tankside.Hatchery.Flags.Rehearsals;
using Tankside.Portal.Accounts;

namespace Tankside.Portal.Flags.Rehearsals;

public sealed class MoveForm
{
    public string? Tank { get; set; }

    /// <summary>The morning's version as the person saw it.</summary>
    public int Version { get; set; }
}

public sealed partial class MorningPage(RehearsalBook book, WorkRehearsal work) : SheetPage<MoveForm>
{
    private WorkedMorning? worked;
    private MadeUpTank? open;

    [Parameter]
    public Guid Id { get; set; }

    /// <summary>The tank that is looked at.</summary>
    [SupplyParameterFromQuery(Name = "tank")]
    private string? TankCode { get; set; }

    private CurrentUser Asking => CurrentUser.From(Http.User)!;

    private string Minutes => worked!.MinutesACall.ToString("0.#", CultureInfo.InvariantCulture);

    private string Progress => worked!.Calls switch
    {
        0 => "Whom do you ring first?",
        1 => "One call is made.",
        var calls => $"{calls} calls are made.",
    };

    /// <summary>The forms that this state of the morning does not show: sent late, they are answered with how it stands.</summary>
    private IEnumerable<string> LateForms =>
    [
        .. worked!.Finished || !worked.Mine ? new[] { "finish" } : [],
        .. worked.Finished || !worked.Mine || worked.Calls == 0 ? new[] { "undo" } : [],
        .. worked.Finished || !worked.Mine || open is null || worked.CalledAt(open.Code) is not null ? new[] { "call" } : [],
    ];

    protected override async Task LoadAsync()
    {
        worked = await book.FindAsync(Asking, Id, Http.RequestAborted);
        if (worked is null)
        {
            Navigation.NotFound();
            return;
        }

        open = TankCode is { } code ? worked.Morning.Find(code) : null;
    }

    private async Task CallAsync()
    {
        var refused = await work.CallAsync(Asking, Id, Input.Tank, Input.Version, Http.RequestAborted);
        GoOn(Input.Tank is { Length: > 0 } code ? $"?tank={Uri.EscapeDataString(code)}" : "", refused);
    }

    private async Task UndoAsync() => GoOn("", await work.UndoAsync(Asking, Id, Input.Version, Http.RequestAborted));

    private async Task FinishAsync() => GoOn("", await work.FinishAsync(Asking, Id, Input.Version, Http.RequestAborted));

    private void GoOn(string query, Notice? notice)
    {
        if (notice is not null)
        {
            Leave($"/rehearsal/{Id}{query}#notice", notice);
        }
        else
        {
            Navigation.NavigateTo($"/rehearsal/{Id}{query}");
        }
    }
}
