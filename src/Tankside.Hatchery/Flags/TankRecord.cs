using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;
using Tankside.Hatchery.Readings.SetPoints;
using Tankside.Hatchery.Releases;
using Tankside.Science.Heat;

namespace Tankside.Hatchery.Flags;

/// <summary>What the rules need to know of a tank itself.</summary>
public sealed record TankProfile
{
    public required Guid Id { get; init; }

    public required string Code { get; init; }

    public double Litres { get; init; } = 208;

    public Jacket Jacket { get; init; }

    public double SetPointC { get; init; } = 10.5;

    public double RoomC { get; init; } = 21;

    public double ElevationM { get; init; }

    public Disinfectant Disinfectant { get; init; } = Disinfectant.Unknown;

    public string Area { get; init; } = "";

    public string? ChillerBatch { get; init; }

    /// <summary>Who supplies the water, where known.</summary>
    public string? Water { get; init; }

    /// <summary>Whatever names the school, where known.</summary>
    public string? School { get; init; }

    public bool NewTeacher { get; init; }

    public double DistanceKm { get; init; }
}

/// <summary>What a tank's siblings of the same lot have lost: the prior of its own losses.</summary>
/// <param name="Deaths">Deaths counted in the other tanks of the lot.</param>
/// <param name="FishDays">Fish times days over which they were counted.</param>
public sealed record SiblingLosses(int Deaths, double FishDays)
{
    public static readonly SiblingLosses None = new(0, 0);
}

/// <summary>Eggs on their way.</summary>
/// <param name="On">The local day of delivery.</param>
/// <param name="SignedFor">Somebody has signed that they may come although the tank is not proved ready.</param>
public sealed record EggsExpected(DateOnly On, int Eggs, bool SignedFor = false);

/// <summary>Where a tank's account stands.</summary>
/// <param name="CountedAt">The newest count of the living.</param>
/// <param name="ChangedAt">When the newest count was entered or the tank closed; with neither, when the newest line was entered.</param>
public sealed record LedgerStand(TankBalance Balance, DateTime? CountedAt, DateTime? ClosedAt, DateTime ChangedAt);

/// <summary>A release that nobody has reported yet.</summary>
/// <param name="Permit">Its number.</param>
public sealed record UnreportedRelease(DateTime At, int Fish, string Permit);

/// <summary>Everything known of a tank at a moment, from which it is judged. Nothing outside it is looked at.</summary>
public sealed record TankRecord
{
    public required TankProfile Tank { get; init; }

    /// <summary>Null when no eggs were received.</summary>
    public LotProfile? Lot { get; init; }

    /// <summary>Alive, about: what the ledger leaves in the tank.</summary>
    public int Fish { get; init; }

    /// <summary>Readings that count, ascending by time, at least of the last <see cref="RecentDays"/> days, as <see cref="HourlyFacts"/> keeps them.</summary>
    public IReadOnlyList<ReadingFact> Recent { get; init; } = [];

    /// <summary>Days since delivery, ascending.</summary>
    public IReadOnlyList<TankDay> Days { get; init; } = [];

    public required SchoolCalendar Calendar { get; init; }

    public SiblingLosses Siblings { get; init; } = SiblingLosses.None;

    /// <summary>What was seen of the hatch in the other tanks of its lot.</summary>
    public LotLearned Learned { get; init; } = LotLearned.Nothing;

    /// <summary>The steps of the plan that its dial is turned by; null without a plan.</summary>
    public IReadOnlyList<SetPointStep>? Plan { get; init; }

    /// <summary>The marks over the tank's area that matter still, with what its school answered.</summary>
    public IReadOnlyList<AreaMark> Marks { get; init; } = [];

    /// <summary>Eggs promised to the tank that have not come yet.</summary>
    public EggsExpected? Expected { get; init; }

    /// <summary>Its account; null where none is kept.</summary>
    public LedgerStand? Ledger { get; init; }

    /// <summary>The oldest of its releases whose report was not sent; null when there is none.</summary>
    public UnreportedRelease? Unreported { get; init; }

    public LimitSet Limits { get; init; } = LimitSet.Defaults;

    /// <summary>What its programme says in its own words; no rule looks at it.</summary>
    public OwnTexts Texts { get; init; } = OwnTexts.None;

    /// <summary>With the days and the lot's hatches that lie before a day; everything else as it is now.</summary>
    public TankRecord AsOf(DateOnly day) => this with { Days = [.. Days.Where(d => d.Day < day)], Learned = Learned.Before(day) };

    /// <summary>What its fish are doing on a day; it must have a lot.</summary>
    public DevelopmentNow DevelopmentOn(DateOnly day) => TankDevelopment.On(day, Lot!, Days, Tank.SetPointC, Learned, Plan);

    /// <summary>The recent readings but for those that arrived after a newer one was known already.</summary>
    public IReadOnlyList<ReadingFact> InTime()
    {
        var newerKnown = DateTime.MaxValue;
        var late = new HashSet<int>();
        for (var i = Recent.Count - 1; i >= 0; i--)
        {
            var received = Recent[i].ReceivedAt ?? Recent[i].At;
            if (received <= newerKnown)
            {
                newerKnown = received;
            }
            else
            {
                late.Add(i);
            }
        }

        return late.Count == 0 ? Recent : [.. Recent.Where((_, i) => !late.Contains(i))];
    }

    /// <summary>How many days of single readings the rules look back on; what is older speaks through <see cref="Days"/>.</summary>
    public const int RecentDays = 21;
}
