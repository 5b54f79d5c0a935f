using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Eggs;
using Tankside.Portal.Readings;
using Tankside.Storage;

namespace Tankside.Portal.Releases.Ledger;

public sealed partial class ReceivePage(TankLedger ledger, ReceiveEggs receive, IDbContextFactory<HatcheryDb> databases) : LineSheet<ReceiptForm>(ledger)
{
    private IReadOnlyList<EggLot> lots = [];

    protected override async Task OnInitializedAsync()
    {
        await base.OnInitializedAsync();
        if (Account?.Season.Season is { } season)
        {
            await using var db = await databases.CreateDbContextAsync(Http.RequestAborted);
            lots = await db.EggLots.AsNoTracking().Where(l => l.SeasonId == season.Id).OrderBy(l => l.Code).ToListAsync(Http.RequestAborted);
        }
    }

    protected override void Begin(TankAccount account)
    {
        BeginLine(Input, account.Season);
        Input.Lot = account.Lot?.Id.ToString();
        Input.Unit = account.Season.Programme.ScreenUnit.ToString();
    }

    private async Task EnterAsync() => LeaveWith(await receive.HandleAsync(Asking, Code, Input, Refuse, Http.RequestAborted));

    private string Promised(TankAccount account) => account.Lot is { } lot && account.Allotted > 0
        ? Say.Count(
            account.Allotted, "{0} egg of lot {1} ({2}) is allotted to it; {3} came so far.", "{0} eggs of lot {1} ({2}) are allotted to it; {3} came so far.",
            lot.Code, SpokenFish.Of(lot.Species, Say), Figures.Of(account.Balance.Received))
        : Say.Of("No eggs are allotted to it; {0} came so far.", Figures.Of(account.Balance.Received));
}
