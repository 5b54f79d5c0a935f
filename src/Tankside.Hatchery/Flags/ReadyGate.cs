using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags.Rules;

namespace Tankside.Hatchery.Flags;

/// <summary>What keeps eggs out of a tank.</summary>
public enum NotReadyReason
{
    /// <summary>No adult has gone through the list yet.</summary>
    NotLookedAt,
    CoilUp,
    ProbeOut,
    TubesKinked,
    FilterBare,
    GravelDirty,
    WaterUnsafe,

    /// <summary>No temperature in days.</summary>
    Unread,
    OffSetPoint,

    /// <summary>At its set point, but not for the days the programme asks.</summary>
    NotColdLongEnough,
}

/// <summary>Whether eggs may come to a tank.</summary>
/// <param name="Missing">Empty when it is ready by itself.</param>
/// <param name="Check">The newest look; null where there was none.</param>
/// <param name="Signature">That eggs may come all the same; null without one.</param>
public sealed record ReadyVerdict(IReadOnlyList<NotReadyReason> Missing, ReadyCheck? Check, ReadyOverride? Signature)
{
    public bool Ready => Missing.Count == 0;

    public bool Go => Ready || Signature is not null;
}

/// <summary>Goes through what a tank needs before eggs: what an adult looked at, and water that has proved cold.</summary>
public static class ReadyGate
{
    /// <param name="check">The newest look of this season.</param>
    /// <param name="signature">A signature that was not withdrawn.</param>
    public static ReadyVerdict Judge(TankRecord record, ReadyCheck? check, ReadyOverride? signature, DateTime now)
    {
        // Where no day is set it is asked of today: as if they came now.
        var eggsOn = record.Expected?.On ?? record.Calendar.Clock.Day(now);
        return new ReadyVerdict([.. OfCheck(check), .. OfWater(ReadinessRules.NotCold(record, eggsOn, now))], check, signature);
    }

    private static IEnumerable<NotReadyReason> OfCheck(ReadyCheck? check)
    {
        if (check is null)
        {
            return [NotReadyReason.NotLookedAt];
        }

        (bool Good, NotReadyReason Otherwise)[] looks =
        [
            (check.CoilDown, NotReadyReason.CoilUp),
            (check.ProbeInWater, NotReadyReason.ProbeOut),
            (check.TubesFree, NotReadyReason.TubesKinked),
            (check.FilterCovered, NotReadyReason.FilterBare),
            (check.GravelClean, NotReadyReason.GravelDirty),
            (check.WaterSafe, NotReadyReason.WaterUnsafe),
        ];
        return looks.Where(l => !l.Good).Select(l => l.Otherwise);
    }

    private static IEnumerable<NotReadyReason> OfWater(Unready? why) => why is not { } cold ? [] :
    [
        cold switch
        {
            Unready.Unread => NotReadyReason.Unread,
            Unready.OffSetPoint => NotReadyReason.OffSetPoint,
            Unready.NotProved => NotReadyReason.NotColdLongEnough,
        },
    ];
}
