namespace Tankside.Hatchery.Flags.Rules;

/// <summary>No reading when one was due. Silence is judged by the school's own calendar: a room on holiday is not late.</summary>
public static class SilenceRules
{
    public static Finding? NoReadingWhenDue(Situation s, bool lastWasFlagged)
    {
        var calendar = s.Record.Calendar;
        var last = s.Record.Recent is [.., var newest] ? newest : null;
        var (lastAt, lastDay) = LastKnown(s);
        var over = calendar.SchoolDays(lastDay, s.Today).Where(d => calendar.WindowOf(d).Closes <= s.Now).ToList();

        var afterBreak = DueAfterBreak(s, lastDay);
        var needed = (int)s.Limits[lastWasFlagged ? Limits.SilentDaysAfterFlag : Limits.SilentDays];
        if (over.Count < needed && afterBreak is null)
        {
            return null;
        }

        // The newest school day that went by unread, or ten o'clock on the first day back: later silence raises a settled flag again.
        var standsOn = over.Count >= needed ? calendar.WindowOf(over[^1]).Closes : afterBreak!.Value.Due;
        var unseen = Math.Max(0, (s.Now - lastAt).TotalHours);
        var evidence = new SilenceEvidence(
            s.Stage, last?.At, over.Count, afterBreak?.ClosedDays ?? 0, lastWasFlagged, s.WaterC);
        var urgency = lastWasFlagged || afterBreak is not null ? Urgency.ActNow : Urgency.Today;
        return new Finding(FlagKind.Silent, urgency, standsOn, evidence, NotKnowing(s, standsOn, unseen, lastWasFlagged));
    }

    /// <summary>When anybody last knew how the tank is: by a reading, or because an adult of the school said that all is well.</summary>
    internal static (DateTime At, DateOnly Day) LastKnown(Situation s)
    {
        var clock = s.Record.Calendar.Clock;
        var read = s.Record.Recent is [.., var newest] ? newest.At : (DateTime?)null;
        if (read is not null || s.AllWellAt is not null)
        {
            var at = read > s.AllWellAt || s.AllWellAt is null ? read!.Value : s.AllWellAt.Value;
            return (at, clock.Day(at));
        }

        var day = s.Record.Days.Count == 0 ? s.Record.Lot!.DeliveredOn : s.Record.Days[^1].Day;
        return (clock.Utc(day, s.Record.Calendar.Opens), day);
    }

    /// <summary>The first school day after a break, past its hour, with nothing read since before the break.</summary>
    private static (DateTime Due, int ClosedDays)? DueAfterBreak(Situation s, DateOnly lastDay)
    {
        var calendar = s.Record.Calendar;
        if (!calendar.IsSchoolDay(s.Today) || lastDay >= s.Today)
        {
            return null;
        }

        var closed = calendar.ClosedDaysBefore(s.Today);
        var due = calendar.Clock.Utc(s.Today, new TimeOnly((int)s.Limits[Limits.SilentAfterBreakHour], 0));
        var readInBreak = lastDay > s.Today.AddDays(-1 - closed);
        return closed >= Places.SchoolCalendar.BreakDays && !readInBreak && s.Now >= due ? (due, closed) : null;
    }

    /// <summary>Not knowing is itself a danger: the base rate of faults over the unseen hours, or worse when the last word was bad.</summary>
    internal static Hazard NotKnowing(Situation s, DateTime from, double unseenHours, bool lastWasFlagged)
    {
        var hours = s.Limits[Limits.Losses.SilentHours];
        var fault = 1 - Math.Exp(-s.Limits[Limits.Losses.FaultPerHour] * unseenHours);
        var share = lastWasFlagged ? Math.Max(fault, s.Limits[Limits.Losses.FaultAfterFlag]) : fault;
        return Hazard.Around(from, hours, share);
    }
}
