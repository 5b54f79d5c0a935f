using Tankside.Hatchery.Flags.Rules;
using Tankside.Science.Losses;

namespace Tankside.Hatchery.Flags;

/// <summary>A trouble of a tank with when it began.</summary>
/// <param name="Since">When it was found; a trouble found again on newer facts keeps its first.</param>
public sealed record StandingTrouble(Finding Finding, DateTime Since);

/// <summary>A tank as the search for shared causes takes it in. What it shares with others may be unknown: null or empty.</summary>
public sealed record SharedCauseTank
{
    /// <summary>Deaths are looked at over so many days (judgement: longer gathers more by chance than by a shared cause), or since the delivery if that is less.</summary>
    public const int LossDays = 7;

    public required string Code { get; init; }

    /// <summary>Whatever names the school; null makes the tank a school of its own.</summary>
    public string? School { get; init; }

    public string? Lot { get; init; }

    public string? Run { get; init; }

    public string? Area { get; init; }

    public string? Water { get; init; }

    public string? ChillerBatch { get; init; }

    public Eggs.LifeStage Stage { get; init; }

    /// <summary>Alive, about.</summary>
    public required int Fish { get; init; }

    /// <summary>Counted dead over <see cref="LossDays"/>.</summary>
    public int Dead { get; init; }

    /// <summary>Usual over the days that those counts stand for, by the base rate alone.</summary>
    public double Expected { get; init; }

    public DateTime? CountedAt { get; init; }

    public int Received { get; init; }

    public int DeadOnArrival { get; init; }

    /// <summary>What stands at the tank.</summary>
    public IReadOnlyList<StandingTrouble> Troubles { get; init; } = [];

    /// <summary>Chance of as many dead or more if the tank were one like others.</summary>
    public double LossTail => Dead == 0 ? 1 : GammaPoisson.UpperTail(UsualLoss.BetweenTanksShape, UsualLoss.BetweenTanksShape, Expected, Dead);

    public string? CodeOf(SharedBy by) => by switch
    {
        SharedBy.Lot => Lot,
        SharedBy.Run => Run,
        SharedBy.Area => Area,
        SharedBy.Water => Water,
        SharedBy.ChillerBatch => ChillerBatch,
    };

    /// <summary>From what a tank is judged by. What stands there, arrival and school are the caller's to add.</summary>
    public static SharedCauseTank Of(TankRecord record, DateTime now)
    {
        var tank = new SharedCauseTank
        {
            Code = record.Tank.Code,
            School = record.Tank.School,
            Lot = record.Lot?.Code,
            Run = record.Lot?.Run,
            Area = record.Tank.Area,
            Water = record.Tank.Water,
            ChillerBatch = record.Tank.ChillerBatch,
            Fish = record.Fish,
        };
        return record.Lot is null ? tank : WithLosses(tank, record, now);
    }

    /// <summary>With what stands at it; where nobody counted losses, its stage is that of what stands there.</summary>
    public SharedCauseTank Standing(IReadOnlyList<StandingTrouble> troubles) => this with
    {
        Troubles = troubles,
        Stage = Dead == 0 && troubles.Count > 0 ? troubles[0].Finding.Evidence.Stage : Stage,
    };

    private static SharedCauseTank WithLosses(SharedCauseTank tank, TankRecord record, DateTime now)
    {
        var today = record.Calendar.Clock.Day(now);
        var counts = LossRules.Counts(record);
        var recent = counts.Where(c => c.Day > today.AddDays(-LossDays)).ToList();
        var dead = recent.Sum(c => c.Dead);
        if (dead == 0)
        {
            return tank;
        }

        var development = record.DevelopmentOn(today);
        var usual = UsualLoss.OfBase(record.Limits, record.Lot!, development);
        return tank with
        {
            Stage = development.Stage,
            Dead = dead,
            Expected = Usually(counts, counts.Count - recent.Count, record.Fish + dead, usual, record.Calendar.IsSchoolDay),
            CountedAt = record.Recent.LastOrDefault(r => (r.Seen.DeadEggs ?? r.Seen.DeadAlevins ?? r.Seen.DeadFry) is not null)?.At,
        };
    }

    /// <summary>
    /// Deaths usual over the days that the counts from <paramref name="first"/> on stand for: since the count before, or since a week
    /// before, and the closed days that lie behind that. Nobody leaves the dead in for longer while school is open.
    /// </summary>
    public static double Usually(IReadOnlyList<LossCount> counts, int first, int fish, UsualLoss usual, Func<DateOnly, bool> isSchoolDay)
    {
        var arrival = usual.DeliveredOn.AddDays(-1);
        var before = first > 0 ? counts[first - 1].Day : arrival;
        var earliest = counts[first].Day.AddDays(-LossDays);
        while (earliest > before && !isSchoolDay(earliest))
        {
            earliest = earliest.AddDays(-1);
        }

        return usual.Mean * fish * usual.Days(before > earliest ? before : earliest, counts[^1].Day);
    }
}
