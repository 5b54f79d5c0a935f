using Microsoft.AspNetCore.Components;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Accounts;

namespace Tankside.Portal.Releases.Ledger;

public sealed partial class LedgerPage(TotalsOfSeason seasons) : ComponentBase
{
    private const string Unaccounted = "Unaccounted";

    private static readonly (string Label, Func<TankBalance, int> Of)[] Columns =
    [
        ("Received", b => b.Received), ("Dead on arrival", b => b.DeadOnArrival), ("Eggs lost", b => b.EggLosses),
        ("Alevins lost", b => b.AlevinLosses), ("Fry lost", b => b.FryLosses), ("Put down", b => b.PutDown), ("Sampled", b => b.Sampled),
        ("Moved in", b => b.TransferredIn), ("Moved out", b => b.TransferredOut), ("Released", b => b.Released),
        ("In the tank", b => b.StillInTank), (Unaccounted, b => b.Unaccounted),
    ];

    private SeasonTotals? totals;

    [CascadingParameter]
    private HttpContext Http { get; set; } = null!;

    private bool OwnSchool => CurrentUser.From(Http.User)!.Is(Role.Teacher);

    /// <summary>Moves between two of the tanks shown are no way in and no end; only what crosses their border is.</summary>
    private TankBalance Season => totals!.Across;

    /// <summary>On a phone, where every number is a line of its own, noughts are left out; what is unaccounted is never.</summary>
    private static string Shown(string label, int count) => count == 0 && label != Unaccounted ? "num wide-only" : "num";

    protected override async Task OnInitializedAsync()
    {
        var user = CurrentUser.From(Http.User)!;
        totals = await seasons.LoadAsync(user.ProgrammeId, null, Http.RequestAborted, user.Is(Role.Teacher) ? user.SchoolId ?? Guid.Empty : null);
    }
}
