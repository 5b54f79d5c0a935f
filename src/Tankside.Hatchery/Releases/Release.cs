using Tankside.Science.Eggs;

namespace Tankside.Hatchery.Releases;

/// <summary>A place where fish may be let go.</summary>
public sealed class ReleaseSite
{
    public Guid Id { get; init; }

    public Guid ProgrammeId { get; init; }

    public required string Name { get; set; }

    /// <summary>The named water of the permit; another water is not allowed.</summary>
    public required string Water { get; set; }

    public int Version { get; set; }
}

/// <summary>What the agency allows: species, number, water, dates.</summary>
public sealed class Permit
{
    public Guid Id { get; init; }

    public Guid ProgrammeId { get; init; }

    public required string Number { get; set; }

    public Species Species { get; set; }

    public required string Water { get; set; }

    public int Fish { get; set; }

    public DateOnly From { get; set; }

    public DateOnly To { get; set; }

    public int Version { get; set; }
}

/// <summary>Fish of one tank let go at one site under one permit, counted, not subtracted.</summary>
public sealed class Release
{
    public Guid Id { get; init; }

    public Guid SeasonId { get; init; }

    public Guid TankId { get; init; }

    public Guid SiteId { get; init; }

    public Guid PermitId { get; init; }

    public DateTime At { get; init; }

    public int Fish { get; init; }

    public bool About { get; init; }

    public double? TankC { get; init; }

    public double? StreamC { get; init; }

    public Guid? EnteredBy { get; init; }

    public DateTime EnteredAt { get; init; }

    public string? Note { get; init; }

    /// <summary>Set when it was entered by mistake; its ledger line is taken back by another one.</summary>
    public DateTime? WithdrawnAt { get; set; }

    public Guid? WithdrawnBy { get; set; }

    /// <summary>Set when somebody says that its report has gone to the agency.</summary>
    public DateTime? ReportedAt { get; set; }

    public Guid? ReportedBy { get; set; }

    public int Version { get; set; }
}

/// <summary>Why a release is refused.</summary>
public enum ReleaseRefusal
{
    NothingCounted,
    WrongSpecies,
    WrongWater,
    OutOfSeason,
    OverPermit,
    InTheFuture,
    NoEggsReceived,
    TankClosed,
}

/// <summary>The permit's conditions. The agency's paper wins; this only keeps an honest hand from a slip.</summary>
public static class ReleaseRules
{
    /// <summary>
    /// Most permits ask for tank and stream within 5 °F before fish are let go. It is advice: within the range that the fish tolerate, studies
    /// found no better survival from slow warming.
    /// </summary>
    public const double TemperingC = 5 / 1.8;

    /// <summary>Days after a release within which agencies ask for its report: 10, 14 or 15, and the permit says which. The shortest, unless the programme sets another.</summary>
    public const int ReportWithinDays = 10;

    /// <summary>The programme setting that holds another number of days.</summary>
    public const string ReportWithinSetting = "report-late.days";

    public static bool AsksForTempering(double? tankC, double? streamC) => tankC is { } tank && streamC is { } stream && Math.Abs(tank - stream) > TemperingC + 0.05;

    /// <summary>Everything that stands against the release; empty when it may be entered.</summary>
    /// <param name="alreadyReleased">Fish already released under the permit.</param>
    /// <param name="lotSpecies">Species in the tank; null when it never received eggs.</param>
    public static IReadOnlyList<ReleaseRefusal> Check(
        Permit permit, ReleaseSite site, Species? lotSpecies, int fish, int alreadyReleased, DateOnly day, DateOnly today, bool tankClosed)
    {
        var refusals = new List<ReleaseRefusal>();
        Refuse(ReleaseRefusal.NothingCounted, fish <= 0);
        Refuse(ReleaseRefusal.NoEggsReceived, lotSpecies is null);
        Refuse(ReleaseRefusal.WrongSpecies, lotSpecies is { } species && species != permit.Species);
        Refuse(ReleaseRefusal.WrongWater, !string.Equals(site.Water, permit.Water, StringComparison.OrdinalIgnoreCase));
        Refuse(ReleaseRefusal.OutOfSeason, day < permit.From || day > permit.To);
        Refuse(ReleaseRefusal.OverPermit, (long)alreadyReleased + fish > permit.Fish);
        Refuse(ReleaseRefusal.InTheFuture, day > today);
        Refuse(ReleaseRefusal.TankClosed, tankClosed);
        return refusals;

        void Refuse(ReleaseRefusal why, bool when)
        {
            if (when)
            {
                refusals.Add(why);
            }
        }
    }
}
