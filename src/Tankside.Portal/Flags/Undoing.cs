using Tankside.Hatchery.Flags;

namespace Tankside.Portal.Flags;

/// <summary>Which act takes another back.</summary>
public static class Undoing
{
    /// <param name="before">The flag as it was, when it was known.</param>
    /// <param name="after">The flag as the act left it.</param>
    /// <returns>Null for what cannot be unsaid: a note, a call.</returns>
    public static FlagAct? Of(FlagAct act, Flag? before, Flag after) => act.Deed switch
    {
        FlagDeed.Closed => new FlagAct(act.FlagId, after.Turn, FlagDeed.Reopened),
        FlagDeed.Promised or FlagDeed.Waiting => new FlagAct(act.FlagId, after.Turn, FlagDeed.WaitOver),
        FlagDeed.Taken or FlagDeed.Assigned when before?.TakenBy is { } earlier => new FlagAct(act.FlagId, after.Turn, FlagDeed.Assigned, To: earlier),
        FlagDeed.Taken => new FlagAct(act.FlagId, after.Turn, FlagDeed.HandedBack),
        FlagDeed.HandedBack => new FlagAct(act.FlagId, after.Turn, FlagDeed.Taken),
        _ => null,
    };
}
