using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Places;

namespace Tankside.Hatchery.Flags;

/// <summary>Too little oxygen: measured, or shown by fish that gasp.</summary>
/// <param name="MgL">Null when nobody measured and only the gasping is known.</param>
/// <param name="Percent">Of what the water can hold at this temperature and height.</param>
/// <param name="Limit">The limit that is passed, mg/L; null when nobody measured.</param>
/// <param name="EarlierMgL">An earlier reading of the tank's own, near enough in time to show a pace.</param>
/// <param name="HoursLimit">The level that time is counted to, mg/L.</param>
/// <param name="PassesAt">When that level is passed; null when it cannot be known.</param>
public sealed record OxygenEvidence(
    LifeStage Stage,
    double? MgL,
    DateTime At,
    double? Percent,
    double? Limit,
    double? EarlierMgL,
    DateTime? EarlierAt,
    double HoursLimit,
    PassTimes? PassesAt,
    bool Gasping) : Evidence(Stage);

/// <summary>Nitrite over its limit.</summary>
/// <param name="MgL">mg/L as N.</param>
/// <param name="BeforeMgL">The test before it, when that was over the limit too.</param>
/// <param name="TestAgain">True for one high step alone: a second test is asked for, not a rescue.</param>
public sealed record NitriteEvidence(
    LifeStage Stage, double MgL, DateTime At, double Limit, double? BeforeMgL, DateTime? BeforeAt, bool TestAgain) : Evidence(Stage);

/// <summary>Chlorine by a test, by fish that gasp after a water change, or both.</summary>
/// <param name="MgL">Total chlorine; null when nobody tested.</param>
/// <param name="Disinfectant">What the school's water carries: it decides what helps.</param>
public sealed record ChlorineEvidence(
    LifeStage Stage,
    DateTime At,
    double? MgL,
    DateTime? TestedAt,
    double Limit,
    DateTime? GaspingAt,
    DateTime? ChangedAt,
    double? ChangedPercent,
    Disinfectant Disinfectant) : Evidence(Stage);

/// <summary>Deaths that begin after hatch or at swim-up in water whose tests are good.</summary>
/// <param name="FirstDay">First of the days counted with a death.</param>
/// <param name="AfterSwimUp">True when they follow swim-up, false when they follow hatch.</param>
/// <param name="BegunOn">The middle of that hatch or swim-up.</param>
/// <param name="NitriteMgL">Null when not tested.</param>
public sealed record MetalsEvidence(
    LifeStage Stage,
    int Dead,
    DateOnly FirstDay,
    DateOnly LastDay,
    bool AfterSwimUp,
    DateOnly BegunOn,
    double Ph,
    double AmmoniaTotalMgL,
    double? NitriteMgL,
    DateTime At) : Evidence(Stage);

/// <summary>Water that is, or turns, acid.</summary>
/// <param name="Limit">The limit it is under; null when it only falls.</param>
/// <param name="FallPerWeek">How fast it falls; null when that is not sure.</param>
public sealed record PhEvidence(
    LifeStage Stage, double Ph, DateTime At, double? Limit, double? FallPerWeek, double? FromPh, DateTime? FromAt) : Evidence(Stage);

/// <summary>White fluff.</summary>
/// <param name="Since">First of the unbroken words on it.</param>
/// <param name="DeadPicked">Dead taken out since then or just before; null when nobody said.</param>
/// <param name="DeadLeft">True when eggs or alevins lie there and nobody says that dead ones were taken out.</param>
public sealed record FungusEvidence(LifeStage Stage, DateTime At, DateTime Since, int? DeadPicked, bool DeadLeft) : Evidence(Stage);

/// <summary>What was said, where two of them cannot both be true.</summary>
public enum SaidFact
{
    NoneHatched,
    MostHatched,
    SomeSwim,
    DeadAlevins,
    DeadFry,
    Fed,
    HatchNotDue,
    ChillerOff,
    WaterFell,
}

/// <summary>Two facts that cannot both be true.</summary>
public sealed record ContradictionEvidence(
    LifeStage Stage, SaidFact One, DateTime OneAt, SaidFact Other, DateTime OtherAt, double? OneWaterC, double? OtherWaterC) : Evidence(Stage);

/// <summary>How finely a thermometer is read.</summary>
public enum ThermometerStep
{
    Fine,
    HalfCelsius,
    WholeFahrenheit,
    WholeCelsius,
}

/// <summary>A thermometer that never changes.</summary>
/// <param name="Looks">Equal readings half a day or more apart.</param>
/// <param name="Since">First day of them.</param>
public sealed record StuckEvidence(
    LifeStage Stage, double WaterC, DateTime At, int Looks, DateOnly Since, ThermometerStep Step, double SetPointC) : Evidence(Stage);
