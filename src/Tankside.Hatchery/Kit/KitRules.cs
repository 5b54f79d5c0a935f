namespace Tankside.Hatchery.Kit;

/// <summary>Why an act is refused.</summary>
public enum KitRefusal
{
    /// <summary>Nothing happens to it any more.</summary>
    IsRetired,
    DoesNotWork,
    AlreadyFaulty,
    IsInRepair,
    NotInRepair,
    InATankAlready,
    InNoTank,

    /// <summary>Promised to another tank.</summary>
    PromisedElsewhere,
    TooSmall,

    /// <summary>Only a pump replaces a pump.</summary>
    OtherKind,
    TheSamePiece,
    NothingToClean,
}

/// <summary>The tank that kit is put into.</summary>
public sealed record KitTank(Guid Id, double Litres);

/// <summary>What is allowed with a piece of kit, and what it changes. The history line is <see cref="Write"/>.</summary>
public static class KitRules
{
    /// <summary>The kinds that a person enters on a piece's own page, without the swap, which has two sides.</summary>
    public static IReadOnlyList<KitActKind> EnteredAlone { get; } =
    [
        KitActKind.Out, KitActKind.Repaired, KitActKind.Fault, KitActKind.In, KitActKind.Cleaned, KitActKind.RepairSent, KitActKind.Taken,
        KitActKind.Stored, KitActKind.LoanSigned, KitActKind.WarrantyClaimed, KitActKind.Retired, KitActKind.Noted,
    ];

    /// <summary>What these acts need to know of where it goes.</summary>
    public static KitPlace? GoesTo(KitActKind kind) => kind switch
    {
        KitActKind.Out => KitPlace.Tank,
        KitActKind.In or KitActKind.Stored => KitPlace.Depot,
        KitActKind.Taken => KitPlace.Person,
        _ => null,
    };

    /// <summary>Those of <see cref="EnteredAlone"/> that make sense with this piece now.</summary>
    public static IEnumerable<KitActKind> PossibleWith(KitItem item) => EnteredAlone.Where(k => WhyNot(item, k, null) is null);

    /// <summary>Null when the act is allowed.</summary>
    /// <param name="tank">Where it goes, for <see cref="KitActKind.Out"/>; null while that is not chosen yet.</param>
    public static KitRefusal? WhyNot(KitItem item, KitActKind kind, KitTank? tank)
    {
        if (item.Condition == KitCondition.Retired)
        {
            return kind == KitActKind.Noted ? null : KitRefusal.IsRetired;
        }

        return kind switch
        {
            KitActKind.Out => WhyNotInto(item, tank),
            KitActKind.In or KitActKind.Taken when item.Condition == KitCondition.InRepair => KitRefusal.IsInRepair,
            KitActKind.In when item.InTankId is null && item.WithPersonId is null => KitRefusal.InNoTank,
            KitActKind.Fault when item.Condition == KitCondition.InRepair => KitRefusal.IsInRepair,
            KitActKind.Fault when item.Condition == KitCondition.Faulty => KitRefusal.AlreadyFaulty,
            KitActKind.RepairSent when item.Condition == KitCondition.InRepair => KitRefusal.IsInRepair,
            KitActKind.Repaired when item.Condition == KitCondition.Working => KitRefusal.NotInRepair,
            KitActKind.Cleaned when !item.ToClean => KitRefusal.NothingToClean,
            KitActKind.Stored when item.Condition == KitCondition.InRepair => KitRefusal.IsInRepair,
            KitActKind.Stored when item.InTankId is not null => KitRefusal.InATankAlready,
            KitActKind.LoanSigned when item.InTankId is null => KitRefusal.InNoTank,
            _ => null,
        };
    }

    /// <summary>Whether <paramref name="fresh"/> may take the place of <paramref name="old"/> at the old one's tank.</summary>
    public static KitRefusal? WhyNoSwap(KitItem old, KitItem fresh, KitTank tank) =>
        old.Id == fresh.Id ? KitRefusal.TheSamePiece
        : old.InTankId != tank.Id ? KitRefusal.InNoTank
        : old.Kind != fresh.Kind ? KitRefusal.OtherKind
        : fresh.Condition == KitCondition.Retired ? KitRefusal.IsRetired
        : WhyNotInto(fresh, tank);

    private static KitRefusal? WhyNotInto(KitItem item, KitTank? tank) =>
        item.Condition != KitCondition.Working ? KitRefusal.DoesNotWork
        : item.InTankId is not null ? KitRefusal.InATankAlready
        : tank is null ? null
        : item.ReservedForTankId is { } promised && promised != tank.Id ? KitRefusal.PromisedElsewhere
        : !item.Fits(tank.Litres) ? KitRefusal.TooSmall
        : null;

    /// <summary>
    /// Does an allowed act: the piece stands where the act leaves it, a promise that is kept or can no longer be kept ends, and the line of
    /// history is given back.
    /// </summary>
    /// <param name="after">The condition it leaves, where the act alone does not say: of a swap, and of a repair.</param>
    public static KitAct Write(KitItem item, KitActKind kind, KitSpot to, Guid sender, Guid? by, DateTime at, string? note, KitCondition? after = null)
    {
        var (from, before) = (item.Spot, item.Condition);
        item.Condition = after ?? ConditionAfter(kind, before);
        item.ToClean = kind != KitActKind.Cleaned && to.Place != KitPlace.Tank && (item.ToClean || from.Place == KitPlace.Tank);
        Put(item, to);
        if (!item.IsSpare)
        {
            (item.ReservedForTankId, item.ReservedBy, item.ReservedAt) = (null, null, null);
        }

        item.Acts++;
        return new KitAct
        {
            ItemId = item.Id,
            Number = item.Acts,
            SenderId = sender,
            Kind = kind,
            At = at,
            By = by,
            FromPlace = from.Place,
            FromId = from.Id,
            ToPlace = item.Spot.Place,
            ToId = item.Spot.Id,
            Before = before,
            After = item.Condition,
            Note = note,
        };
    }

    /// <summary>Where an act leaves the piece when it names no place: where it is, at the repairer's, or nowhere.</summary>
    public static KitSpot Default(KitItem item, KitActKind kind) => kind switch
    {
        KitActKind.RepairSent => KitSpot.AtTheRepairer,
        KitActKind.Retired => KitSpot.Gone,
        KitActKind.Repaired when item.Condition == KitCondition.InRepair => KitSpot.Unknown,
        _ => item.Spot,
    };

    private static KitCondition ConditionAfter(KitActKind kind, KitCondition before) => kind switch
    {
        KitActKind.Fault => KitCondition.Faulty,
        KitActKind.RepairSent => KitCondition.InRepair,
        KitActKind.Repaired => KitCondition.Working,
        KitActKind.Retired => KitCondition.Retired,
        _ => before,
    };

    private static void Put(KitItem item, KitSpot to)
    {
        item.InTankId = to.Place == KitPlace.Tank ? to.Id : null;
        item.DepotId = to.Place == KitPlace.Depot ? to.Id : null;
        item.WithPersonId = to.Place == KitPlace.Person ? to.Id : null;
    }
}
