using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;

namespace Tankside.Hatchery.Flags.Rehearsals;

/// <summary>
/// What one made-up class wrote down from delivery to this morning. Quiet days are so quiet that no rule can speak: what the rules find is
/// what the story put there.
/// </summary>
internal sealed class MadeUpReadings(MadeUpTankPlan plan, SchoolCalendar calendar, DateTime start, SeededDice dice)
{
    /// <summary>The last reading that the class may still have sent before the coordinator begins.</summary>
    private const int MinutesBefore = 3;

    private readonly List<ReadingFact> told = [];

    private DateOnly Today => calendar.Clock.Day(start);

    /// <summary>School days from delivery until today, today included.</summary>
    private List<DateOnly> Days => [.. calendar.SchoolDays(plan.Lot.DeliveredOn.AddDays(-1), Today)];

    public (IReadOnlyList<ReadingFact> Readings, AskedTemperature? Asked) Tell()
    {
        var days = Days;
        foreach (var day in days.Take(days.Count - LastDaysUnread(days)))
        {
            if (day < Today || plan.ReadsToday)
            {
                told.Add(Quiet(day));
            }
        }

        return ([.. told.Concat(Happened(days)).OrderBy(r => r.At)], Asked());
    }

    private int LastDaysUnread(List<DateOnly> days)
    {
        var today = days.Count > 0 && days[^1] == Today ? 1 : 0;
        return plan.Story switch
        {
            Story.SilentDays => today + 2 + dice.Between(0, 1),
            Story.SilentAfterBreak => today,
            Story.SilentAfterBadWord => today + (plan.AfterBreak ? 0 : 1),
            _ => 0,
        };
    }

    private ReadingFact Quiet(DateOnly day)
    {
        var (under, over) = plan.Stir(day, Today);
        var dead = plan.DeadOn(day);
        var stage = plan.StageOn(day);
        var wednesday = day.DayOfWeek == DayOfWeek.Wednesday && plan.Story is not (Story.AmmoniaWithoutPh or Story.AcidAmmonia);
        return new ReadingFact(At(day, dice.Between(5, 50)), new Observation
        {
            WaterC = Fahrenheit(plan.QuietF(day, Today) + dice.Between(-under, over)),
            Moving = true,
            Bubbles = true,
            LevelOk = true,
            Clear = !(plan.Story == Story.FoamAfterHatch && day >= Today.AddDays(-4)),
            DeadEggs = stage == LifeStage.Egg ? dead : null,
            DeadAlevins = stage == LifeStage.Alevin ? dead : null,
            DeadFry = stage == LifeStage.Fry ? dead : null,
            Hatched = plan.HatchedOn(day),
            Swimming = plan.SwimmingOn(day),
            Fed = stage == LifeStage.Fry ? true : null,
            Ph = wednesday ? 7.2 : null,
            AmmoniaTotalMgL = wednesday ? 0.25 : null,
            Note = NoteOn(day),
        }, ByClass: true);
    }

    private string? NoteOn(DateOnly day) => day != Today ? null : plan.Story switch
    {
        Story.FryAtFiftyFour => "54! Our poster says 52. Is that bad??",
        Story.FoamAfterHatch => "White foam and empty shells everywhere, water a bit cloudy.",
        Story.WorriedNote => "One is dead and we are very worried. Please ring us at once!",
        Story.HeldWarm => "Same as all week.",
        _ => null,
    };

    /// <summary>What the story adds to the quiet days.</summary>
    private IEnumerable<ReadingFact> Happened(List<DateOnly> days) => plan.Story switch
    {
        Story.PumpOutBigFish => [Now(0, new Observation { Moving = false, Bubbles = false, ChillerRunning = true, LevelOk = true })],
        Story.StillBasket => [Now(0, new Observation { Moving = false, Bubbles = true, ChillerRunning = true })],
        Story.EverythingStopped => [Now(1, new Observation { Moving = false, Bubbles = false, ChillerRunning = false, Note = "It is so quiet in here." })],
        Story.NoBubbles => [Now(0, new Observation { Moving = true, Bubbles = false })],
        Story.RisingFast => Rising(days, dice.Between(5, 7)),
        Story.ChillerOff => [Now(dice.Between(3, 5), new Observation { ChillerRunning = false, Moving = true, Bubbles = true })],
        Story.IcedCoil => [Now(-dice.Between(13, 14), new Observation { IceOnCoil = true, Moving = true, Bubbles = true })],
        Story.SilentAfterBadWord => [BadWord()],
        Story.AlkalineAmmonia => [Now(0, new Observation { AmmoniaTotalMgL = 1.5 + (0.5 * dice.Between(0, 3)), Ph = 8.2, Moving = true, Bubbles = true })],
        Story.AmmoniaWithoutPh => [Now(0, new Observation { AmmoniaTotalMgL = 2, Moving = true, Bubbles = true })],
        Story.AcidAmmonia => [Now(0, new Observation { AmmoniaTotalMgL = 4, Ph = 6.6, Moving = true, Bubbles = true, Note = "Ammonia is dark green, off the chart!" })],
        Story.DieOff => [Now(0, Dead(dice.Between(13, 22)))],
        Story.RestingChiller =>
        [
            Now(0, new Observation { ChillerRunning = false, Moving = true, Bubbles = true, Note = "The chiller is off!!" }, minutesAgo: 25),
            Now(0, new Observation { Moving = true, Bubbles = true }, minutesAgo: MinutesBefore),
        ],
        _ => [],
    };

    private IEnumerable<ReadingFact> Rising(List<DateOnly> days, int degreesF)
    {
        var before = plan.AfterBreak || days.Count < 2
            ? Now(degreesF - 2, new Observation { Moving = true, Bubbles = true }, minutesAgo: 80)
            : new ReadingFact(calendar.WindowOf(days[^2]).Closes.AddMinutes(-20), Water(0, new Observation { Moving = true, Bubbles = true }), ByClass: true);
        return [before, Now(degreesF, new Observation { Moving = true, Bubbles = true })];
    }

    /// <summary>The last word before the silence: warm in the afternoon after a cold morning.</summary>
    private ReadingFact BadWord() => new(
        calendar.WindowOf(calendar.Clock.Day(told[^1].At)).Closes.AddMinutes(-25),
        Water(dice.Between(5, 7), new Observation { Moving = true, Bubbles = true, Note = "It is getting warm. We go home now." }),
        ByClass: true);

    private AskedTemperature? Asked() => plan.Story == Story.OddNumber ? new AskedTemperature(start.AddMinutes(-8), 52, TemperatureUnit.C) : null;

    private Observation Dead(int count) => plan.StageOn(Today) switch
    {
        LifeStage.Egg => new Observation { DeadEggs = count, Fungus = true, Moving = true, Bubbles = true },
        LifeStage.Alevin => new Observation { DeadAlevins = count, Moving = true, Bubbles = true },
        LifeStage.Fry => new Observation { DeadFry = count, Moving = true, Bubbles = true },
    };

    /// <summary>A reading of this morning, at most three quarters of an hour old and never from before the building opened.</summary>
    private ReadingFact Now(int overF, Observation seen, int? minutesAgo = null)
    {
        var at = start.AddMinutes(-(minutesAgo ?? dice.Between(MinutesBefore, 45)));
        var opens = calendar.WindowOf(Today).Opens.AddMinutes(5);
        return new ReadingFact(at > opens ? at : opens, Water(overF, seen), ByClass: true);
    }

    private Observation Water(int overF, Observation seen) => seen with { WaterC = Fahrenheit(plan.SetF + overF) };

    private DateTime At(DateOnly day, int minutes)
    {
        var at = calendar.WindowOf(day).Opens.AddMinutes(minutes);
        return day == Today && at > start.AddMinutes(-MinutesBefore) ? start.AddMinutes(-MinutesBefore) : at;
    }

    private static double Fahrenheit(int degrees) => Math.Round(WaterTemperature.ToC(degrees, TemperatureUnit.F), 2);
}
