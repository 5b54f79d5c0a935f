using Tankside.Hatchery.People;

namespace Tankside.Hatchery.Places;

/// <summary>The word of a school on a marked area, as it stands.</summary>
public sealed record SchoolWord(SweepAnswer Answer, DateTime At)
{
    /// <summary>
    /// The word that counts of several adults of one school. Each may know of another room, so the worst stands; what the school told
    /// the coordinator overrides all that was said before it.
    /// </summary>
    public static SchoolWord? Standing(IEnumerable<SweepReply> replies)
    {
        var said = replies.Where(r => r is { Answer: not null, AnsweredAt: not null }).ToList();
        var told = said.Where(r => r.PersonId is null).Max(r => r.AnsweredAt);
        var standing = said.Where(r => told is null || r.AnsweredAt >= told)
            .OrderBy(r => Weight(r.Answer!.Value)).ThenBy(r => r.AnsweredAt).LastOrDefault();
        return standing is null ? null : new SchoolWord(standing.Answer!.Value, standing.AnsweredAt!.Value);
    }

    private static int Weight(SweepAnswer answer) => answer switch
    {
        SweepAnswer.NobodyThere => 0,
        SweepAnswer.AllWell => 1,
        SweepAnswer.PowerOff => 2,
        SweepAnswer.Trouble => 3,
    };
}

/// <summary>A marked area as the tanks of one school are judged by it.</summary>
/// <param name="Until">When it was expected to be over. Schools open again by it; that the power is back only <paramref name="EndedAt"/> says.</param>
public sealed record AreaMark(SweepReason Reason, DateTime From, DateTime? Until, DateTime? EndedAt, SchoolWord? Word)
{
    public static AreaMark Of(AreaSweep sweep, SchoolWord? word) => new(sweep.Reason, sweep.From, sweep.Until, sweep.EndedAt, word);

    /// <summary>Shut buildings with no notice.</summary>
    public bool ClosesSchools => Reason is SweepReason.Snow or SweepReason.Flood;
}

/// <summary>What a mark means for a school's days and for its own links.</summary>
public static class SweepTimes
{
    /// <summary>How long after the end a reply is still taken: teachers come back to their rooms a day or two later.</summary>
    public static readonly TimeSpan AnswersAfterEnd = TimeSpan.FromDays(2);

    /// <summary>A mark that nobody ended does not keep its links open for ever.</summary>
    public static readonly TimeSpan LongestOpen = TimeSpan.FromDays(30);

    /// <summary>True for a mark set by mistake: it was ended at its own beginning and never held.</summary>
    public static bool IsTakenBack(this AreaSweep sweep) => sweep.EndedAt <= sweep.From;

    public static bool IsFor(this AreaSweep sweep, string area) =>
        sweep.Area.Length == 0 || string.Equals(sweep.Area, area, StringComparison.Ordinal);

    public static bool TakesAnswersAt(this AreaSweep sweep, DateTime now) =>
        now < (sweep.EndedAt is { } ended ? ended + AnswersAfterEnd : (sweep.Until ?? sweep.MarkedAt) + LongestOpen);

    /// <summary>
    /// The days on which a mark shuts the school: those whose school hours it touches. One without an end lasts through today, because the
    /// next day is decided the next morning. Null when it touches none.
    /// </summary>
    /// <param name="now">The moment of judging; null where days to come do not matter.</param>
    public static (DateOnly First, DateOnly Last)? ShutDays(
        this AreaSweep sweep, ProgrammeClock clock, TimeOnly opens, TimeOnly closes, DateTime? now)
    {
        if (sweep.Reason is not (SweepReason.Snow or SweepReason.Flood) || sweep.IsTakenBack())
        {
            return null;
        }

        var from = clock.Local(sweep.From);
        var first = DateOnly.FromDateTime(from).AddDays(TimeOnly.FromDateTime(from) < closes ? 0 : 1);
        return LastShutDay(sweep, clock, opens, now ?? sweep.From) is var last && last >= first ? (first, last) : null;
    }

    private static DateOnly LastShutDay(AreaSweep sweep, ProgrammeClock clock, TimeOnly opens, DateTime now)
    {
        if ((sweep.EndedAt ?? sweep.Until) is not { } end)
        {
            return clock.Day(now > sweep.From ? now : sweep.From);
        }

        var local = clock.Local(end);
        return DateOnly.FromDateTime(local).AddDays(TimeOnly.FromDateTime(local) > opens ? 0 : -1);
    }
}
