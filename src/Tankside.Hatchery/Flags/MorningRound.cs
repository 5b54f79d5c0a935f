using Tankside.Hatchery.Places;
using Tankside.Science.Units;

namespace Tankside.Hatchery.Flags;

/// <summary>A tank with its open troubles, as the round takes it in.</summary>
/// <typeparam name="T">What the caller knows a trouble by: a stored flag, or a finding of a replay.</typeparam>
public sealed record TroubledTank<T>(TankProfile Tank, int Fish, SchoolCalendar Calendar, IReadOnlyList<(T Key, Finding Finding)> Troubles);

/// <summary>One trouble in its place.</summary>
/// <param name="Rank">1 is called first.</param>
/// <param name="ExpectedLoss">This trouble's part of the fish lost by leaving the tank uncalled.</param>
public sealed record RankedTrouble<T>(int Rank, T Key, Finding Finding, double ExpectedLoss, Band? HoursLeft);

/// <summary>A tank in its place: one call, however many troubles.</summary>
/// <param name="ExpectedLoss">Fish expected lost if it is not called before somebody can next act, beyond those lost anyway.</param>
public sealed record Call<T>(TankProfile Tank, int Fish, double ExpectedLoss, Band? HoursLeft, IReadOnlyList<RankedTrouble<T>> Troubles);

/// <summary>
/// The order of the morning round: the tank whose call saves most fish first. Loss without a call until somebody could next act, less the
/// loss with one; within half a fish the one with less time, then more fish, then the new teacher, then the farther room.
/// </summary>
public static class MorningRound
{
    /// <summary>Fish within which two tanks are taken as equal.</summary>
    private const double Tie = 0.5;

    /// <summary>How often fish still live that the model has given up (judgement).</summary>
    private const double Hope = 0.2;

    /// <summary>From picking up the phone to somebody acting at the tank.</summary>
    internal static readonly TimeSpan ToAct = TimeSpan.FromMinutes(30);

    /// <summary>From calling while the building is shut to an adult with a key being there (judgement).</summary>
    internal static readonly TimeSpan OutOfHours = TimeSpan.FromHours(3);

    public static IReadOnlyList<Call<T>> Order<T>(IEnumerable<TroubledTank<T>> tanks, DateTime now) =>
        [.. Order(tanks, [], now).OfType<RoundEntry<T>.OfTank>().Select(e => e.Call)];

    /// <summary>
    /// With shared causes in their places. A shared cause counts only the fish of tanks not in trouble yet, and no more than its own tanks
    /// hold: those are counted in their own calls.
    /// </summary>
    public static IReadOnlyList<RoundEntry<T>> Order<T>(
        IEnumerable<TroubledTank<T>> tanks, IEnumerable<SharedTrouble<T>> shared, DateTime now)
    {
        RoundEntry<T>[] entries =
        [
            .. tanks.Where(t => t.Troubles.Count > 0).Select(t => new RoundEntry<T>.OfTank(Weigh(t, now))),
            .. shared.Select(s => Weigh(s, now)),
        ];
        var ordered = TieGroups(entries).SelectMany(group => group
            .OrderBy(e => e.HoursLeft?.Mid ?? double.MaxValue)
            .ThenByDescending(e => e.Fish)
            .ThenByDescending(e => TankOf(e)?.NewTeacher ?? false)
            .ThenByDescending(e => TankOf(e)?.DistanceKm ?? 0)
            .ThenByDescending(e => e.ExpectedLoss)
            .ThenBy(CodeOf, StringComparer.Ordinal));
        var rank = 0;
        return [.. ordered.Select<RoundEntry<T>, RoundEntry<T>>(entry => entry switch
        {
            RoundEntry<T>.OfTank e => new RoundEntry<T>.OfTank(e.Call with { Troubles = [.. e.Call.Troubles.Select(t => t with { Rank = ++rank })] }),
            RoundEntry<T>.OfShared e => e with { Trouble = e.Trouble with { Rank = ++rank } },
            _ => throw new ArgumentOutOfRangeException(nameof(tanks), entry.GetType().Name, "neither a tank nor a shared cause"),
        })];
    }

    private static TankProfile? TankOf<T>(RoundEntry<T> entry) => (entry as RoundEntry<T>.OfTank)?.Call.Tank;

    private static string CodeOf<T>(RoundEntry<T> entry) => TankOf(entry)?.Code ?? ((RoundEntry<T>.OfShared)entry).Evidence.Code;

    /// <summary>When somebody acts if called now, and when somebody next could if not.</summary>
    public static (DateTime IfCalled, DateTime IfNot) ActTimes(SchoolCalendar calendar, DateTime now)
    {
        if (calendar.WindowAtOrAfter(now) is not { } window)
        {
            return (now.AddDays(1), now.AddDays(8)); // No school day in sight: a caretaker within a day, else nobody for a week.
        }

        if (window.Closes - now < ToAct && calendar.WindowAtOrAfter(window.Closes.AddMinutes(1)) is { } later)
        {
            // The bell is about to ring: a call still reaches the adult at the tank; the next chance is the next school day.
            return (now + ToAct, later.Opens + ToAct);
        }

        if (now + OutOfHours < window.Opens)
        {
            // The building is shut: a call finds an adult with a key; without one nobody looks before it opens.
            return (now + OutOfHours + ToAct, window.Opens + ToAct);
        }

        var called = (now > window.Opens ? now : window.Opens) + ToAct;
        var next = calendar.WindowAtOrAfter(window.Closes.AddMinutes(1));
        return (called, next is { } n ? n.Opens + ToAct : window.Closes.AddDays(7));
    }

    private static RoundEntry<T>.OfShared Weigh<T>(SharedTrouble<T> shared, DateTime now)
    {
        var (ifCalled, ifNot) = ActTimes(shared.Calendar, now);
        var evidence = (SharedCauseEvidence)shared.Finding.Evidence;
        var hazard = shared.Finding.Hazard;
        var loss = evidence.OtherFish * Math.Max(0, hazard.LostBy(ifNot) - hazard.LostBy(ifCalled));
        var trouble = new RankedTrouble<T>(0, shared.Key, shared.Finding, Math.Min(loss, evidence.Fish), hazard.HoursLeftAt(now));
        return new RoundEntry<T>.OfShared(trouble, evidence);
    }

    private static Call<T> Weigh<T>(TroubledTank<T> tank, DateTime now)
    {
        var (ifCalled, ifNot) = ActTimes(tank.Calendar, now);
        var loss = Math.Max(StillHoped(tank, ifNot), LostBy(tank, ifNot) - LostBy(tank, ifCalled));
        var own = tank.Troubles
            .Select(t => Math.Max(0, t.Finding.Hazard.LostBy(ifNot) - t.Finding.Hazard.LostBy(ifCalled)))
            .ToList();
        var sum = own.Sum();
        var troubles = tank.Troubles
            .Select((t, i) => new RankedTrouble<T>(
                0, t.Key, t.Finding, sum > 0 ? loss * own[i] / sum : loss / own.Count, t.Finding.Hazard.HoursLeftAt(now)))
            .OrderByDescending(t => t.Finding.Urgency)
            .ThenBy(t => t.HoursLeft?.Mid ?? double.MaxValue) // It is one call: the first sentence is the one with least time.
            .ThenByDescending(t => t.ExpectedLoss)
            .ThenBy(t => t.Finding.Kind)
            .ToList();
        var soonest = troubles.Where(t => t.HoursLeft is not null).MinBy(t => t.HoursLeft!.Value.Mid)?.HoursLeft;
        return new Call<T>(tank.Tank, tank.Fish, loss, soonest, troubles);
    }

    /// <summary>
    /// By the model a tank may be lost already; but nobody has looked, and the model is wrong at times. Such a tank must not drop out of
    /// sight: a part of its fish is still hoped for.
    /// </summary>
    private static double StillHoped<T>(TroubledTank<T> tank, DateTime by) =>
        tank.Troubles.Any(t => t.Finding.Urgency == Urgency.ActNow) ? Hope * LostBy(tank, by) : 0;

    /// <summary>
    /// Several dangers to the same fish: N (1 - product of (1 - share lost)), never more than its N. Troubles that are signs of one danger
    /// (a chiller off, water rising, water warm) count once, as the worst of them.
    /// </summary>
    public static double LostBy<T>(TroubledTank<T> tank, DateTime by) =>
        tank.Fish * Dangers.ShareLost(tank.Troubles.Select(t => (t.Finding.Kind, t.Finding.Hazard.LostBy(by))));

    /// <summary>Runs of entries whose losses lie within the tie of the run's first.</summary>
    private static IEnumerable<List<RoundEntry<T>>> TieGroups<T>(IEnumerable<RoundEntry<T>> entries)
    {
        var group = new List<RoundEntry<T>>();
        foreach (var entry in entries.OrderByDescending(e => e.ExpectedLoss).ThenBy(CodeOf, StringComparer.Ordinal))
        {
            if (group.Count > 0 && group[0].ExpectedLoss - entry.ExpectedLoss > Tie)
            {
                yield return group;
                group = [];
            }

            group.Add(entry);
        }

        if (group.Count > 0)
        {
            yield return group;
        }
    }
}
