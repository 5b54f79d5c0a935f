using Tankside.Hatchery.Places;

namespace Tankside.Hatchery.Flags.Rules;

/// <summary>Marked areas other than by a power cut: what adults there answered, and buildings that are shut with no notice.</summary>
public static class AreaRules
{
    /// <summary>An adult said that there is trouble, and nobody has read the tank or said better since. In a power cut the hours say more.</summary>
    public static Finding? TroubleSaid(Situation s)
    {
        var mark = s.Record.Marks.Where(m => m.Reason != SweepReason.PowerCut && m.Word is { Answer: SweepAnswer.Trouble }).MaxBy(m => m.Word!.At);
        if (mark?.Word is not { } word || s.AllWellAt > word.At || s.Record.Recent.Any(r => r.At > word.At))
        {
            return null;
        }

        var evidence = new TroubleSaidEvidence(
            s.Stage, mark.Reason, mark.From, word.At, s.Record.Recent is [.., var last] ? last.At : null, s.WaterC);
        var hazard = Hazard.Around(word.At, s.Limits[Limits.Losses.TroubleSaidHours], s.Limits[Limits.Losses.TroubleSaidShare]);
        return new Finding(FlagKind.Silent, Urgency.ActNow, word.At, evidence, hazard);
    }

    /// <summary>
    /// Nobody is late while the building is shut, but not knowing is a danger all the same: after as many days as a school day's silence
    /// is given, whoever may enter is asked for.
    /// </summary>
    public static Finding? UnseenWhileShut(Situation s, bool lastWasFlagged)
    {
        var mark = s.Record.Marks.Where(m => m.ClosesSchools && m.From <= s.Now && (m.EndedAt ?? m.Until ?? s.Now) >= s.Now).MinBy(m => m.From);
        if (mark is null)
        {
            return null;
        }

        var calendar = s.Record.Calendar;
        var (lastAt, lastDay) = SilenceRules.LastKnown(s);
        var unread = Enumerable.Range(1, Math.Max(0, s.Today.DayNumber - lastDay.DayNumber)).Select(lastDay.AddDays)
            .Where(d => calendar.WasToBeSchoolDay(d) && calendar.WindowOf(d).Closes <= s.Now).ToList();
        if (unread.Count < (int)s.Limits[lastWasFlagged ? Limits.SilentDaysAfterFlag : Limits.SilentDays])
        {
            return null;
        }

        var standsOn = calendar.WindowOf(unread[^1]).Closes;
        var evidence = new ShutEvidence(
            s.Stage, mark.Reason, mark.From, s.Record.Recent is [.., var last] ? last.At : null, unread.Count, lastWasFlagged, s.WaterC);
        var hazard = SilenceRules.NotKnowing(s, standsOn, Math.Max(0, (s.Now - lastAt).TotalHours), lastWasFlagged);
        return new Finding(FlagKind.Silent, lastWasFlagged ? Urgency.Today : Urgency.ThisWeek, standsOn, evidence, hazard);
    }
}
