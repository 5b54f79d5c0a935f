using Tankside.Hatchery.Flags;

namespace Tankside.Portal.Flags;

/// <summary>Which act takes another back.</summary>
public static class Undoing
{
    /// <param name="before">The flag as it was, when it was known.</param>
    /// <param name="after">The flag as the act left it.</param>
    /// <returns>Null for what cannot be unsaid: a note, a call.</returns>
    public static FlagAct? Of(FlagAct act, Flag? before, Flag after)
    {
        return act.Deed switch
        {
            FlagDeed.Promised or FlagDeed.Waiting or FlagDeed.WaitOver when before?.PromiseDue is { } due => Again(FlagDeed.Promised, due),
            FlagDeed.Promised or FlagDeed.Waiting or FlagDeed.WaitOver when before?.WaitUntil is { } until => Again(FlagDeed.Waiting, until),
            FlagDeed.Closed => new FlagAct(act.FlagId, after.Turn, FlagDeed.Reopened),
            FlagDeed.Promised or FlagDeed.Waiting => new FlagAct(act.FlagId, after.Turn, FlagDeed.WaitOver),
            FlagDeed.Taken or FlagDeed.Assigned when before?.TakenBy is { } earlier => new FlagAct(act.FlagId, after.Turn, FlagDeed.Assigned, To: earlier),
            FlagDeed.Taken or FlagDeed.Assigned => new FlagAct(act.FlagId, after.Turn, FlagDeed.HandedBack),
            FlagDeed.HandedBack => new FlagAct(act.FlagId, after.Turn, FlagDeed.Taken),
            _ => null,
        };

        FlagAct Again(FlagDeed deed, DateTime until) => new(act.FlagId, after.Turn, deed, "As it was before.", Until: until);
    }
}
