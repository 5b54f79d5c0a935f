namespace Tankside.Portal.Releases.Ledger;

public sealed partial class ClosePage(TankLedger ledger, CloseTank close) : LineSheet<CloseForm>(ledger);
