namespace Tankside.Portal.Releases.Ledger;

public sealed partial class MovePage(TankLedger ledger, MoveFish move) : LineSheet<MoveForm>(ledger);
