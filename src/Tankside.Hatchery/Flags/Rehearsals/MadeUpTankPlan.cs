using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Readings;
using Tankside.Science.Heat;

namespace Tankside.Hatchery.Flags.Rehearsals;

/// <summary>What is decided of a made-up tank before a single reading is told.</summary>
/// <param name="Room">Index of its room.</param>
/// <param name="Stage">Where its brood stands today.</param>
/// <param name="ReadsToday">Whether the class has had its first look of the day already.</param>
/// <param name="AfterBreak">Today is the first day after a break.</param>
internal sealed record MadeUpTankPlan(
    int Room, string Code, Story Story, LifeStage Stage, LotProfile Lot, int Fish, double Litres, Jacket Jacket, bool ReadsToday, bool AfterBreak)
{
    private const int UsualF = 52;

    /// <summary>School and other days for which water that is held too warm or too cold has been so.</summary>
    private const int HeldDays = 5;

    private const int DaysBetweenDead = 11;

    /// <summary>°F that the chiller aims for.</summary>
    public int SetF => Story switch
    {
        Story.FryAtFiftyFour => 54,
        Story.TooCold => 41,
        _ => UsualF,
    };

    /// <summary>°F around which the water lies on a quiet day.</summary>
    public int QuietF(DateOnly day, DateOnly today) => IsHeld(day, today)
        ? Story switch
        {
            Story.HeldWarm => 55,
            Story.HeldHot => 66,
            Story.TooCold => 37,
            _ => SetF,
        }
        : Story == Story.TooCold ? UsualF // The dial was turned down only then: a brood cold from the start would have hatched later.
        : SetF;

    /// <summary>True on days on which the water does not stir from its number: that it stays is the story.</summary>
    public bool IsHeld(DateOnly day, DateOnly today) =>
        Story is Story.HeldWarm or Story.HeldHot or Story.TooCold && day >= today.AddDays(-HeldDays);

    private int DaysHere(DateOnly day) => day.DayNumber - Lot.DeliveredOn.DayNumber;

    /// <summary>By the lots' own days; the egg that hatches late is an egg to the last.</summary>
    public LifeStage StageOn(DateOnly day) => Stage switch
    {
        LifeStage.Egg => LifeStage.Egg,
        LifeStage.Alevin or LifeStage.Fry when DaysHere(day) < 13 => LifeStage.Egg,
        LifeStage.Fry when DaysHere(day) >= 40 => LifeStage.Fry,
        LifeStage.Alevin or LifeStage.Fry => LifeStage.Alevin,
    };

    /// <summary>°F that a quiet day lies off that number, at the most: a thermometer read to the degree.</summary>
    public (int Under, int Over) Stir(DateOnly day, DateOnly today) => IsHeld(day, today) ? (0, 0) : Story == Story.FryAtFiftyFour ? (1, 0) : (1, 1);

    /// <summary>Dead on a quiet day: one now and then, evenly, so that a long quiet season never drifts into a rise of losses.</summary>
    public int DeadOn(DateOnly day) => (day.DayNumber + Fish) % DaysBetweenDead == 0 ? 1 : 0;

    public Share? HatchedOn(DateOnly day) => (Stage, DaysHere(day)) switch
    {
        (LifeStage.Egg, >= 9) when Story == Story.LateHatch => Share.None,
        (LifeStage.Egg, _) or (_, < 10 or > 17) => null,
        (_, < 12) => Share.Some,
        (_, < 14) => Share.Most,
        _ => Share.All,
    };

    public Share? SwimmingOn(DateOnly day) => (Stage, DaysHere(day)) switch
    {
        (LifeStage.Fry, >= 38 and < 42) => Share.Some,
        (LifeStage.Fry, >= 42 and < 48) => Share.All,
        _ => null,
    };
}
