using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Eggs;
using Tankside.Science.Eggs;
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

    private static string Promised(TankAccount account) => account.Lot is { } lot && account.Allotted > 0
        ? $"{Figures.Of(account.Allotted, "egg", "eggs")} of lot {lot.Code} ({SpeciesCodes.CommonName(lot.Species)}) {(account.Allotted == 1 ? "is" : "are")} allotted to it; {Figures.Of(account.Balance.Received)} came so far"
        : $"No eggs are allotted to it; {Figures.Of(account.Balance.Received)} came so far";
}
