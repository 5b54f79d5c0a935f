namespace Tankside.Portal.Releases.Ledger;

public sealed partial class CorrectPage(TankLedger ledger, CorrectLine correct) : LineSheet<CorrectionForm>(ledger);
