namespace Tankside.Hatchery.Flags;

/// <summary>What has to be done to a tank's flags so that they say what the findings say.</summary>
public abstract record FlagChange
{
    public sealed record Open(Finding Finding) : FlagChange;

    /// <param name="Told">True when the change is worth a line of history, not only fresher numbers.</param>
    public sealed record Update(Flag Flag, Finding Finding, bool Told) : FlagChange;

    public sealed record Clear(Flag Flag) : FlagChange;

    /// <summary>It comes back into the round: what was promised is due, the wait is over, or it is worse than when it was let rest.</summary>
    public sealed record RestOver(Flag Flag, RestEnd Why) : FlagChange;

    /// <summary>The trouble seems over, but only a class says so: an adult has to agree.</summary>
    public sealed record AwaitAdult(Flag Flag) : FlagChange;
}

/// <summary>Why a flag that was let rest is back.</summary>
public enum RestEnd
{
    PromiseDue,
    WaitOver,
    Worse,
}

/// <summary>The difference between what is found and what is flagged. Pure.</summary>
public static class Reconcile
{
    /// <summary>Compares <paramref name="findings"/> with a tank's flags.</summary>
    /// <param name="open">The tank's open flags.</param>
    /// <param name="settled">Its newest settled flag of each kind, so that one closed by a person is not raised again by the same facts.</param>
    /// <param name="lastWordIsClass">True when the newest word on a flag's trouble came by room code alone; see <see cref="LastWord"/>.</param>
    /// <param name="now">The moment it is judged at: promises fall due by it.</param>
    public static IReadOnlyList<FlagChange> Compare(
        IReadOnlyList<Finding> findings, IReadOnlyList<Flag> open, IReadOnlyList<Flag> settled, Func<Flag, bool> lastWordIsClass, DateTime now)
    {
        var changes = new List<FlagChange>();
        foreach (var finding in findings)
        {
            var flag = open.FirstOrDefault(f => f.Kind == finding.Kind);
            if (flag is null)
            {
                if (!settled.Any(f => f.Kind == finding.Kind && f.Settlement == Settlement.Closed && f.StandsOn >= finding.StandsOn))
                {
                    changes.Add(new FlagChange.Open(finding));
                }
            }
            else if (flag.Evidence != finding.Evidence || flag.Urgency != finding.Urgency || flag.SaidOverAt is not null)
            {
                changes.Add(new FlagChange.Update(flag, finding, IsTold(flag, finding)));
            }
        }

        foreach (var flag in open.Where(f => f.RestsUntil is not null))
        {
            if (EndOfRest(flag, findings.FirstOrDefault(f => f.Kind == flag.Kind), now) is { } why)
            {
                changes.Add(new FlagChange.RestOver(flag, why));
            }
        }

        foreach (var flag in open.Where(f => findings.All(x => x.Kind != f.Kind)))
        {
            if (lastWordIsClass(flag) && (flag.Urgency == Urgency.ActNow || flag.TakenBy is not null))
            {
                if (flag.SaidOverAt is null)
                {
                    changes.Add(new FlagChange.AwaitAdult(flag));
                }
            }
            else
            {
                changes.Add(new FlagChange.Clear(flag));
            }
        }

        return changes;
    }

    /// <summary>Null while it may go on resting, and when the trouble is gone anyway.</summary>
    private static RestEnd? EndOfRest(Flag flag, Finding? finding, DateTime now) =>
        finding is null ? null
        : finding.Urgency > flag.Urgency ? RestEnd.Worse
        : flag.RestsAt(now) ? null
        : flag.PromiseDue is not null ? RestEnd.PromiseDue
        : RestEnd.WaitOver;

    private static bool IsTold(Flag flag, Finding finding) =>
        flag.Urgency != finding.Urgency || flag.StandsOn != finding.StandsOn || flag.SaidOverAt is not null;
}
