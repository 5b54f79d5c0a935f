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
    private static readonly TimeSpan ToAct = TimeSpan.FromMinutes(30);

    /// <summary>From calling while the building is shut to an adult with a key being there (judgement).</summary>
    private static readonly TimeSpan OutOfHours = TimeSpan.FromHours(3);

    public static IReadOnlyList<Call<T>> Order<T>(IEnumerable<TroubledTank<T>> tanks, DateTime now)
    {
        var calls = tanks.Where(t => t.Troubles.Count > 0).Select(t => Weigh(t, now)).ToList();
        var ordered = new List<Call<T>>(calls.Count);
        foreach (var group in TieGroups(calls))
        {
            ordered.AddRange(group
                .OrderBy(c => c.HoursLeft?.Mid ?? double.MaxValue)
                .ThenByDescending(c => c.Fish)
                .ThenByDescending(c => c.Tank.NewTeacher)
                .ThenByDescending(c => c.Tank.DistanceKm)
                .ThenByDescending(c => c.ExpectedLoss)
                .ThenBy(c => c.Tank.Code, StringComparer.Ordinal));
        }

        var rank = 0;
        return [.. ordered.Select(c => c with { Troubles = [.. c.Troubles.Select(t => t with { Rank = ++rank })] })];
    }

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

    private static Call<T> Weigh<T>(TroubledTank<T> tank, DateTime now)
    {
        var (ifCalled, ifNot) = ActTimes(tank.Calendar, now);
        var loss = Math.Max(StillHoped(tank, ifNot), Combined(tank, ifNot) - Combined(tank, ifCalled));
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
        tank.Troubles.Any(t => t.Finding.Urgency == Urgency.ActNow) ? Hope * Combined(tank, by) : 0;

    /// <summary>
    /// Several dangers to the same fish: N (1 - product of (1 - share lost)), never more than its N. Troubles that are signs of one danger
    /// (a chiller off, water rising, water warm) count once, as the worst of them.
    /// </summary>
    private static double Combined<T>(TroubledTank<T> tank, DateTime by) =>
        tank.Fish * (1 - tank.Troubles
            .GroupBy(t => Dangers.Of(t.Finding.Kind))
            .Aggregate(1.0, (kept, danger) => kept * (1 - danger.Max(t => t.Finding.Hazard.LostBy(by)))));

    /// <summary>Runs of tanks whose losses lie within the tie of the run's first.</summary>
    private static IEnumerable<List<Call<T>>> TieGroups<T>(List<Call<T>> calls)
    {
        var group = new List<Call<T>>();
        foreach (var call in calls.OrderByDescending(c => c.ExpectedLoss).ThenBy(c => c.Tank.Code, StringComparer.Ordinal))
        {
            if (group.Count > 0 && group[0].ExpectedLoss - call.ExpectedLoss > Tie)
            {
                yield return group;
                group = [];
            }

            group.Add(call);
        }

        if (group.Count > 0)
        {
            yield return group;
        }
    }
}
