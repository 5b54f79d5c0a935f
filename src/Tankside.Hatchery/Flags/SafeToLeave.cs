using Tankside.Hatchery.Flags.Leaving;
using Tankside.Hatchery.Places;

namespace Tankside.Hatchery.Flags;

/// <summary>
/// Safe to leave? A tank's worst credible closed stretch, the fish expected lost if it is left, and the one thing to do before the bell.
/// Pure, like the rules: the same record and the same moment give the same answer. Base rates and shares are judgement
/// (<see cref="Limits.Leaving"/>); times come from the tank's own physics.
/// </summary>
public static class SafeToLeave
{
    /// <summary>True from noon of the last school day until somebody can act again: now the question is asked.</summary>
    public static bool IsAsked(ClosedStretch stretch, SchoolCalendar calendar, LimitSet limits, DateTime now) =>
        now >= AskedFrom(stretch, calendar, limits) && now < stretch.Until + MorningRound.ToAct;

    /// <summary>Null for a tank without eggs or fish.</summary>
    public static LeaveAnswer? Judge(TankRecord record, DateTime now)
    {
        if (record.Lot is null || record.Fish <= 0)
        {
            return null;
        }

        var s = new Situation(record, now);
        var stretch = ClosedStretch.At(record.Calendar, now);
        var looked = LookedSince(s, CountsFrom(s, stretch));
        var (left, tank) = AsItStands(s, stretch, looked);
        var lost = left.ShareLost;
        var verdict = Judged(s, left, looked, lost);
        var (act, better) = new Choice(left, stretch, verdict).Best();
        return new LeaveAnswer(
            stretch, left.Looks[^1], s.Stage, record.Fish, verdict, record.Fish * lost, left.FaultChance, Worst(tank, left, stretch), act,
            record.Fish * Math.Max(0, lost - better), AdultLooks.Days(s, stretch), looked, left.Coming, left.Troubles);
    }

    private static DateTime AskedFrom(ClosedStretch stretch, SchoolCalendar calendar, LimitSet limits) =>
        calendar.Clock.Utc(calendar.Clock.Day(stretch.Bell), new TimeOnly((int)limits[Limits.Leaving.FromHour], 0));

    private static (WeekendCase Left, UnwatchedTank Tank) AsItStands(Situation s, ClosedStretch stretch, LastLook looked)
    {
        var tank = new UnwatchedTank(s);
        var acts = stretch.Until + MorningRound.ToAct;
        var delivered = s.Record.Calendar.Clock.Utc(s.Record.Lot!.DeliveredOn, s.Record.Calendar.Opens);
        var last = looked.At ?? (delivered < s.Now ? delivered : s.Now);
        return (new WeekendCase
        {
            Situation = s,
            Tank = tank,

            // Days ahead the question is how it stands if it is looked at until the bell as it has been.
            Since = looked.SaysEnough && s.Now < AskedFrom(stretch, s.Record.Calendar, s.Limits) ? stretch.Bell : last,
            Looks = [acts],
            Troubles = Open(s),
            Coming = Coming.To(s, stretch),
        }, tank);
    }

    /// <summary>What has to be dealt with before anybody leaves; not knowing, hunger and paperwork are weighed apart.</summary>
    private static List<Finding> Open(Situation s) => [.. Assessment.Assess(s.Record, s.Now)
        .Where(f => f.Urgency >= Urgency.Today && Dangers.Of(f.Kind) is not (Danger.NotKnowing or Danger.Hunger or Danger.None))
        .OrderByDescending(f => f.Urgency).ThenByDescending(f => f.Hazard.ShareLost).ThenBy(f => f.Kind)];

    /// <summary>The day from which a look speaks for the closed stretch: its last school day, once it is asked; before, the school day before.</summary>
    private static DateOnly CountsFrom(Situation s, ClosedStretch stretch)
    {
        var calendar = s.Record.Calendar;
        return s.Now >= AskedFrom(stretch, calendar, s.Limits)
            ? calendar.Clock.Day(stretch.Bell)
            : s.Today.AddDays(-1 - calendar.ClosedDaysBefore(s.Today));
    }

    private static LastLook LookedSince(Situation s, DateOnly day)
    {
        var looks = s.Record.Recent.Where(r => s.Record.Calendar.Clock.Day(r.At) >= day).ToList();
        return new LastLook(
            s.Record.Recent is [.., var newest] ? newest.At : s.Record.Days is [.., var old] ? old.LastAt : null,
            looks.Any(r => r.Seen.WaterC is not null),
            looks.Any(r => r.Seen.Moving is not null));
    }

    private static LeaveVerdict Judged(Situation s, WeekendCase left, LastLook looked, double lost) =>
        left.Troubles.Count > 0 ? LeaveVerdict.NotSafe
        : !looked.SaysEnough ? LeaveVerdict.NotKnown
        : s.Record.Fish * lost > s.Limits[Limits.Leaving.Safe] ? LeaveVerdict.NotSafe
        : LeaveVerdict.Safe;

    /// <summary>The fault that weighs most, by how often it comes and what it takes, were it to come just after the bell or the last look after it.</summary>
    private static WorstWeekend Worst(UnwatchedTank tank, WeekendCase left, ClosedStretch stretch)
    {
        var from = left.Since > stretch.Bell ? left.Since : stretch.Bell;
        return Enum.GetValues<LeaveFault>()
            .Select(fault => IfItComes(tank, fault, from, left.Looks[^1]))
            .OrderByDescending(c => tank.Part(c.Fault) * c.ShareLost)
            .ThenByDescending(c => tank.Part(c.Fault))
            .ThenBy(c => c.PassesAt?.Low ?? DateTime.MaxValue)
            .First();
    }

    /// <summary>Told by what takes more of the fish: the heat or the want of air.</summary>
    private static WorstWeekend IfItComes(UnwatchedTank tank, LeaveFault fault, DateTime from, DateTime acts)
    {
        var byAir = tank.AirHours(fault) is not null
            && (tank.HeatHours(fault) is null || tank.LostToAir(fault, from, acts) >= tank.LostToHeat(fault, from, acts));
        return new WorstWeekend(
            fault, from, tank.StartC, byAir ? null : tank.LimitC, Situation.PassTimes(from, byAir ? tank.AirHours(fault) : tank.HeatHours(fault)),
            tank.ShareLost(fault, from, acts));
    }
}
