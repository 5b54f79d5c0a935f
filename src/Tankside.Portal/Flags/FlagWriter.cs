using Tankside.Hatchery.Flags;
using Tankside.Storage;

namespace Tankside.Portal.Flags;

/// <summary>Writes what <see cref="Reconcile"/> decided: flags, and a line of history for each change worth telling.</summary>
public sealed class FlagWriter(HatcheryDb db, DateTime now)
{
    private readonly HashSet<Guid> programmes = [];
    private readonly HashSet<Flag> actNow = [];

    public int Opened { get; private set; }

    public int Cleared { get; private set; }

    /// <summary>Programmes whose round looks different now.</summary>
    public IReadOnlyCollection<Guid> Programmes => programmes;

    /// <summary>Flags that became "act now", or came back as such from a rest, and that nobody has in hand.</summary>
    public IReadOnlyList<Flag> CannotWait => [.. actNow.Where(f => f is { State: FlagState.Open, Urgency: Urgency.ActNow, TakenBy: null } && !f.RestsAt(now))];

    public void Apply(Guid? tankId, Guid programmeId, IReadOnlyList<FlagChange> changes)
    {
        foreach (var change in changes)
        {
            switch (change)
            {
                case FlagChange.Open(var finding):
                    Open(tankId, programmeId, finding);
                    break;
                case FlagChange.Update(var flag, var finding, var told):
                    Update(flag, finding, told);
                    break;
                case FlagChange.Clear(var flag):
                    Clear(flag);
                    break;
                case FlagChange.RestOver(var flag, var why):
                    EndRest(flag, why);
                    break;
                case FlagChange.AwaitAdult(var flag):
                    flag.SaidOverAt = now;
                    flag.UpdatedAt = now;
                    Tell(flag, FlagDeed.SaidOver, null);
                    break;
            }

            programmes.Add(programmeId);
        }
    }

    private void Open(Guid? tankId, Guid programmeId, Finding finding)
    {
        var shared = finding.Evidence as SharedCauseEvidence;
        var flag = new Flag
        {
            Id = Guid.CreateVersion7(new DateTimeOffset(now)),
            ProgrammeId = programmeId,
            TankId = tankId,
            CauseBy = shared?.By,
            CauseCode = shared?.Code,
            Kind = finding.Kind,
            State = FlagState.Open,
            OpenedAt = now,
            UpdatedAt = now,
            Urgency = finding.Urgency,
            StandsOn = finding.StandsOn,
            Evidence = finding.Evidence,
            Hazard = finding.Hazard,
            RuleVersion = Assessment.RuleVersion,
        };
        db.Flags.Add(flag);
        actNow.Add(flag);
        Tell(flag, FlagDeed.Opened, finding.Evidence);
        Opened++;
    }

    private void Update(Flag flag, Finding finding, bool told)
    {
        if (flag.Urgency != Urgency.ActNow)
        {
            actNow.Add(flag);
        }

        flag.Urgency = finding.Urgency;
        flag.StandsOn = finding.StandsOn;
        flag.Evidence = finding.Evidence;
        flag.Hazard = finding.Hazard;
        flag.RuleVersion = Assessment.RuleVersion;
        flag.SaidOverAt = null;
        flag.UpdatedAt = now;
        if (told)
        {
            Tell(flag, FlagDeed.Updated, finding.Evidence);
        }
    }

    private void EndRest(Flag flag, RestEnd why)
    {
        actNow.Add(flag);
        flag.PromiseFellDue = why == RestEnd.PromiseDue;
        (flag.PromiseDue, flag.WaitUntil) = (null, null);
        flag.UpdatedAt = now;
        Tell(flag, why == RestEnd.PromiseDue ? FlagDeed.PromiseDue : FlagDeed.WaitOver, null);
    }

    private void Clear(Flag flag)
    {
        (flag.PromiseDue, flag.WaitUntil, flag.PromiseFellDue) = (null, null, false);
        flag.State = FlagState.Settled;
        flag.Settlement = Settlement.Cleared;
        flag.SettledAt = now;
        flag.UpdatedAt = now;
        Tell(flag, FlagDeed.Cleared, null);
        Cleared++;
    }

    private void Tell(Flag flag, FlagDeed deed, Evidence? evidence) => db.FlagEvents.Add(new FlagEvent
    {
        FlagId = flag.Id,
        At = now,
        Deed = deed,
        Evidence = evidence,
        Urgency = flag.Urgency,
        RuleVersion = Assessment.RuleVersion,
    });
}
