namespace Tankside.Portal.Places.Register;

/// <summary>Which of the things taken out is to come back; the page names it by the button.</summary>
public sealed class TakenOutForm;
