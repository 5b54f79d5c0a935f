using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;

namespace Tankside.Hatchery.Tests.Places;

public class AreaSweepTests
{
    private static readonly ProgrammeClock Clock = ProgrammeClock.Of("America/Los_Angeles");
    private static readonly TimeOnly Opens = new(8, 0), Closes = new(15, 15);

    private static DateTime At(int day, int hour, int minute = 0) => Clock.Utc(new DateOnly(2027, 1, 20).AddDays(day), new TimeOnly(hour, minute));

    private static AreaSweep Sweep(SweepReason reason, DateTime from, DateTime? until = null, DateTime? ended = null) => new()
    {
        Id = Guid.NewGuid(),
        Area = "north",
        Reason = reason,
        From = from,
        Until = until,
        MarkedAt = from,
        EndedAt = ended,
    };

    private static (int First, int Last)? Shut(AreaSweep sweep, DateTime? now = null) =>
        sweep.ShutDays(Clock, Opens, Closes, now) is var (first, last)
            ? (first.DayNumber - new DateOnly(2027, 1, 20).DayNumber, last.DayNumber - new DateOnly(2027, 1, 20).DayNumber) : null;

    [Fact]
    public void Snow_shuts_the_days_whose_school_hours_it_touches()
    {
        Assert.Equal((0, 1), Shut(Sweep(SweepReason.Snow, At(0, 6), until: At(1, 16)), At(0, 7)));
        Assert.Equal((1, 1), Shut(Sweep(SweepReason.Flood, At(0, 17), ended: At(1, 12)), At(3, 9)));
        Assert.Equal((0, 0), Shut(Sweep(SweepReason.Snow, At(0, 6), ended: At(1, 7)), At(3, 9)));
        Assert.Null(Shut(Sweep(SweepReason.Snow, At(0, 17), ended: At(1, 7)), At(3, 9)));
        Assert.Null(Shut(Sweep(SweepReason.PowerCut, At(0, 6), ended: At(1, 12)), At(3, 9)));
        Assert.Null(Shut(Sweep(SweepReason.Snow, At(0, 6), ended: At(0, 6)), At(3, 9)));
    }

    [Fact]
    public void Snow_without_an_end_lasts_through_today()
    {
        Assert.Equal((0, 2), Shut(Sweep(SweepReason.Snow, At(0, 6)), At(2, 9)));
        Assert.Equal((0, 1), Shut(Sweep(SweepReason.Snow, At(0, 6), until: At(1, 16)), At(2, 9)));
        Assert.Equal((0, 0), Shut(Sweep(SweepReason.Snow, At(0, 6))));
    }

    [Fact]
    public void Links_work_until_two_days_after_the_end_and_not_for_ever()
    {
        Assert.True(Sweep(SweepReason.Other, At(0, 6)).TakesAnswersAt(At(5, 6)));
        Assert.False(Sweep(SweepReason.Other, At(0, 6)).TakesAnswersAt(At(31, 6)));
        Assert.True(Sweep(SweepReason.Other, At(0, 6), ended: At(1, 6)).TakesAnswersAt(At(3, 5)));
        Assert.False(Sweep(SweepReason.Other, At(0, 6), ended: At(1, 6)).TakesAnswersAt(At(3, 6)));
    }

    [Fact]
    public void An_empty_area_is_the_whole_programme()
    {
        Assert.True(Sweep(SweepReason.Other, At(0, 6)).IsFor("north"));
        Assert.False(Sweep(SweepReason.Other, At(0, 6)).IsFor("south"));
        Assert.True(new AreaSweep { Area = "" }.IsFor("south"));
    }

    private static SweepReply Said(SweepAnswer? answer, int minute, bool told = false) => new()
    {
        Id = Guid.NewGuid(),
        PersonId = told ? null : Guid.NewGuid(),
        SecretHash = "",
        AskedAt = At(0, 6),
        Answer = answer,
        AnsweredAt = answer is null ? null : At(0, 7, minute),
    };

    [Fact]
    public void The_worst_word_of_a_school_stands()
    {
        Assert.Null(SchoolWord.Standing([Said(null, 0)]));
        Assert.Equal(SweepAnswer.AllWell, SchoolWord.Standing([Said(SweepAnswer.NobodyThere, 2), Said(SweepAnswer.AllWell, 1), Said(null, 0)])!.Answer);
        Assert.Equal(new SchoolWord(SweepAnswer.Trouble, At(0, 7, 1)), SchoolWord.Standing([Said(SweepAnswer.Trouble, 1), Said(SweepAnswer.AllWell, 5), Said(SweepAnswer.PowerOff, 3)]));
    }

    [Fact]
    public void What_the_school_told_the_coordinator_overrides_what_was_said_before()
    {
        Assert.Equal(SweepAnswer.AllWell, SchoolWord.Standing([Said(SweepAnswer.Trouble, 1), Said(SweepAnswer.AllWell, 9, told: true)])!.Answer);
        Assert.Equal(SweepAnswer.Trouble, SchoolWord.Standing([Said(SweepAnswer.Trouble, 10), Said(SweepAnswer.AllWell, 9, told: true)])!.Answer);
    }
}
