namespace Tankside.Portal.Flags.Calls;

/// <summary>What was promised or why it can wait, and until when.</summary>
public sealed record RestChoice(string Words, DateTime Until);
