using Tankside.Science.Eggs;

namespace Tankside.Portal.Releases.Ledger;

public sealed partial class TankLedgerPage(TankLedger ledger, EnterLine enter) : LineSheet<LineForm>(ledger)
{
    protected override void Begin(TankAccount account) => BeginLine(Input, account.Season);

    private async Task EnterAsync() => LeaveWith(await enter.HandleAsync(Asking, Code, Input, Refuse, Http.RequestAborted));

    private static string Where(TankAccount account) => account.Lot is { } lot
        ? $"{account.School}, {account.Room}; lot {lot.Code}, {SpeciesCodes.CommonName(lot.Species)}"
        : $"{account.School}, {account.Room}; no lot yet";
}
