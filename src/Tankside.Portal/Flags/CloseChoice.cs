using Tankside.Hatchery.Flags;

namespace Tankside.Portal.Flags;

/// <summary>Which flags of a call are closed, and how it ended.</summary>
public sealed record CloseChoice(IReadOnlyList<Guid> Flags, Outcome Outcome, TroubleCause Cause, string Note);
