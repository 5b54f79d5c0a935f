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

    /// <summary>Where it is, decimal degrees; north and east are positive.</summary>
    public double? Latitude { get; set; }

    public double? Longitude { get; set; }

    /// <summary>Children and adults who have room at the water at once; null when nobody has said: then one booking at a time.</summary>
    public int? MostVisitors { get; set; }

    /// <summary>Buses that can stand there at once; null when nobody has said.</summary>
    public int? MostBuses { get; set; }

    /// <summary>The way to the water: parking, steps, wheelchairs, whose land it is.</summary>
    public string? Access { get; set; }

    /// <summary>What can hurt somebody there.</summary>
    public string? Hazards { get; set; }

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

    /// <summary>The adult whom the paper names.</summary>
    public string? Holder { get; set; }

    /// <summary>The person of the programme who sends its reports and is reminded of them.</summary>
    public Guid? ResponsibleId { get; set; }

    /// <summary>Days from delivery within which the fish have to leave the tank; null where the paper sets no such limit.</summary>
    public int? HoldDays { get; set; }

    public string? Conditions { get; set; }

    /// <summary>Where the paper itself is: a file's name, a binder, the agency's own address of it.</summary>
    public string? Document { get; set; }

    /// <summary>Set when somebody says that the agency has been told that nothing was released on it.</summary>
    public DateTime? NilReportedAt { get; set; }

    public Guid? NilReportedBy { get; set; }

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

    /// <summary>The booking whose day it was; null when it was entered without one.</summary>
    public Guid? BookingId { get; init; }

    /// <summary>The full name, as under a paper, of the adult who answers for the count.</summary>
    public string? SignedAs { get; init; }

    public DateTime? SignedAt { get; init; }

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

    /// <summary>The agency has been told that nothing was released on this permit.</summary>
    NilReported,
}

/// <summary>The permit's conditions. The agency's paper wins; this only keeps an honest hand from a slip.</summary>
public static class ReleaseRules
{
    /// <summary>Days after a release within which agencies ask for its report: 10, 14 or 15, and the permit says which. The shortest, unless the programme sets another.</summary>
    public const int ReportWithinDays = 10;

    /// <summary>The programme setting that holds another number of days.</summary>
    public const string ReportWithinSetting = "report-late.days";

    /// <summary>
    /// Most permits ask for tank and stream within 5 °F before fish are let go. It is advice: within the range that the fish tolerate, studies
    /// found no better survival from slow warming.
    /// </summary>
    /// <param name="apartC">As far as they may be apart, °C.</param>
    public static bool AsksForTempering(double? tankC, double? streamC, double apartC) =>
        tankC is { } tank && streamC is { } stream && Math.Abs(tank - stream) > apartC + 0.05;

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
        Refuse(ReleaseRefusal.NilReported, permit.NilReportedAt is not null);
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
