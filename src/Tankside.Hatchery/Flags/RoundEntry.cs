using Tankside.Hatchery.Places;
using Tankside.Science.Units;

namespace Tankside.Hatchery.Flags;

/// <summary>A shared cause as the round takes it in.</summary>
/// <param name="Finding">Its evidence is a <see cref="SharedCauseEvidence"/>.</param>
/// <param name="Calendar">Of one of its schools: by it somebody next acts.</param>
public sealed record SharedTrouble<T>(T Key, Finding Finding, SchoolCalendar Calendar);

/// <summary>One entry of the round: a tank's call, or a cause that several tanks share.</summary>
/// <param name="Fish">Fish of the tank, or of the tanks in the shared trouble.</param>
public abstract record RoundEntry<T>(int Fish, double ExpectedLoss, Band? HoursLeft)
{
    /// <summary>One call to one tank.</summary>
    public sealed record OfTank(Call<T> Call) : RoundEntry<T>(Call.Fish, Call.ExpectedLoss, Call.HoursLeft);

    /// <summary>One call about several tanks, to whoever has charge of what they share.</summary>
    public sealed record OfShared(RankedTrouble<T> Trouble, SharedCauseEvidence Evidence)
        : RoundEntry<T>(Evidence.Fish, Trouble.ExpectedLoss, Trouble.HoursLeft);
}
