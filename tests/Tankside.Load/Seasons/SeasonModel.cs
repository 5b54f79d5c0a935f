using Tankside.Hatchery.Flags.Rules;

namespace Tankside.Load.Seasons;

/// <summary>
/// How a season goes when nothing is wrong with what tanks share. Each tank has a loss rate of its own, gamma between tanks; deaths of a day
/// are Poisson; round the hatch they are several times as many. Weekends and a break are unread, and some school days nobody counts: what
/// died is counted next time. All numbers are judgement; see docs/science/losses.md.
/// </summary>
public sealed record SeasonModel
{
    public double PerFishDay { get; init; } = 0.002;

    public double Shape { get; init; } = UsualLoss.BetweenTanksShape;

    public double HatchTimes { get; init; } = 3;

    public int Days { get; init; } = 130;

    public int Fish { get; init; } = 150;

    /// <summary>Chance that the dead are counted on a school day.</summary>
    public double Counted { get; init; } = 0.9;

    /// <summary>Day of half hatch after delivery, and how far what the programme believes lies off it.</summary>
    public int HatchDay { get; init; } = 20;

    public double HatchError { get; init; } = 1.5;

    /// <summary>Chance in a season that a tank has a die-off of its own: a twentieth to two fifths of its fish in three days.</summary>
    public double OwnDieOff { get; init; } = 0.1;

    /// <summary>Chances a school day that a tank's own chiller, pump or heat trouble, its water's, or its silence begins.</summary>
    public double KitTrouble { get; init; } = 0.002;

    public double WaterTrouble { get; init; } = 0.003;

    public double Silence { get; init; } = 0.01;

    /// <summary>Chance a school day that nobody of a whole school answers.</summary>
    public double SchoolSilence { get; init; } = 0.002;

    /// <summary>A Tuesday in January.</summary>
    public static readonly DateOnly First = new(2027, 1, 12);

    private const int BreakFrom = 62, BreakTo = 72;

    public static bool IsSchoolDay(int day) =>
        First.AddDays(day).DayOfWeek is not (DayOfWeek.Saturday or DayOfWeek.Sunday) && day is < BreakFrom or > BreakTo;
}
