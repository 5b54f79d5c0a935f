using Microsoft.AspNetCore.Components;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell;

namespace Tankside.Portal.Releases.Ledger;

public sealed partial class LedgerPage(TotalsOfSeason seasons) : ComponentBase
{
    private SeasonTotals? totals;
    private Slice<TankTotals> slice = Slice.Of<TankTotals>([], null);

    [SupplyParameterFromQuery(Name = "page")]
    private string? Page { get; set; }

    [CascadingParameter]
    private HttpContext Http { get; set; } = null!;

    private bool OwnSchool => CurrentUser.From(Http.User)!.Is(Role.Teacher);

    /// <summary>Moves between two of the tanks shown are no way in and no end; only what crosses their border is.</summary>
    private TankBalance Season => totals!.Across;

    private string Unaccounted => Say["Unaccounted"];

    private (string Label, Func<TankBalance, int> Of)[] Columns =>
    [
        (Say["Received"], b => b.Received), (Say["Dead on arrival"], b => b.DeadOnArrival), (Say["Eggs lost"], b => b.EggLosses),
        (Say["Alevins lost"], b => b.AlevinLosses), (Say["Fry lost"], b => b.FryLosses), (Say["Put down"], b => b.PutDown), (Say["Sampled"], b => b.Sampled),
        (Say["Moved in"], b => b.TransferredIn), (Say["Moved out"], b => b.TransferredOut), (Say["Released"], b => b.Released),
        (Say["In the tank"], b => b.StillInTank), (Unaccounted, b => b.Unaccounted),
    ];

    /// <summary>On a phone, where every number is a line of its own, noughts are left out; what is unaccounted is never.</summary>
    private string Shown(string label, int count) => "num" + (count == 0 && label != Unaccounted ? " wide-only" : "");

    protected override async Task OnInitializedAsync()
    {
        var user = CurrentUser.From(Http.User)!;
        totals = await seasons.LoadAsync(user.ProgrammeId, null, Http.RequestAborted, user.Is(Role.Teacher) ? user.SchoolId ?? Guid.Empty : null);
        slice = Slice.Of(totals?.Tanks ?? [], Page);
    }
}
