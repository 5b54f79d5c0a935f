using Tankside.Portal.Readings;

namespace Tankside.Portal.Releases.Ledger;

public sealed partial class TankLedgerPage(TankLedger ledger, EnterLine enter) : LineSheet<LineForm>(ledger)
{
    protected override void Begin(TankAccount account) => BeginLine(Input, account.Season);

    private async Task EnterAsync() => LeaveWith(await enter.HandleAsync(Asking, Code, Input, Refuse, Http.RequestAborted));

    private string Where(TankAccount account) => account.Lot is { } lot
        ? Say.Of("{0}, {1}; lot {2}, {3}.", account.School, account.Room, lot.Code, SpokenFish.Of(lot.Species, Say))
        : Say.Of("{0}, {1}; no lot yet.", account.School, account.Room);
}
