using Tankside.Science.Eggs;

namespace Tankside.Hatchery.Releases;

/// <summary>A release that stands, as far as its permit is concerned.</summary>
public readonly record struct StandingRelease(DateOnly On, Species? Species, string Water, int Fish);

/// <summary>Why a permit cannot be changed so: a release that stands on it would no longer be covered.</summary>
public enum PermitEditRefusal
{
    FewerThanReleased,
    ReleasedOnOtherDays,
    ReleasedOtherSpecies,
    ReleasedElsewhere,
}

/// <summary>What of a permit may be changed once fish were let go on it.</summary>
public static class PermitRules
{
    /// <summary>The setting that holds how many days before a report is due its reminder goes out.</summary>
    public const string RemindSetting = "report-due.remind-days";

    /// <summary>Days before a report is due on which its reminder goes out, unless the programme sets another number (judgement: a weekend and a day).</summary>
    public const int RemindDays = 3;

    /// <summary>Everything that stands against the change; empty when it may be made.</summary>
    public static IReadOnlyList<PermitEditRefusal> CheckEdit(Permit changed, IReadOnlyCollection<StandingRelease> releases)
    {
        var refusals = new List<PermitEditRefusal>();
        Refuse(PermitEditRefusal.FewerThanReleased, releases.Sum(r => (long)r.Fish) > changed.Fish);
        Refuse(PermitEditRefusal.ReleasedOnOtherDays, releases.Any(r => r.On < changed.From || r.On > changed.To));
        Refuse(PermitEditRefusal.ReleasedOtherSpecies, releases.Any(r => r.Species is { } species && species != changed.Species));
        Refuse(PermitEditRefusal.ReleasedElsewhere, releases.Any(r => !IsSameWater(r.Water, changed.Water)));
        return refusals;

        void Refuse(PermitEditRefusal why, bool when)
        {
            if (when)
            {
                refusals.Add(why);
            }
        }
    }

    public static bool IsSameWater(string one, string other) => string.Equals(one, other, StringComparison.OrdinalIgnoreCase);

    /// <summary>The last day on which fish delivered on <paramref name="delivered"/> may still be held; null without such a limit.</summary>
    public static DateOnly? HeldUntil(Permit permit, DateOnly? delivered) => permit.HoldDays is { } days && delivered is { } day ? day.AddDays(days) : null;
}
