using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Science.Units;

namespace Tankside.Hatchery.Tests.Flags;

/// <summary>Findings and flags that tests of the round and of reconciling start from.</summary>
internal static class Troubles
{
    public static readonly DateTime Nine = TankStory.At(0, 9);

    public static Finding Found(
        FlagKind kind = FlagKind.Warm, double hours = 24, double share = 0.3, double? left = null, Urgency urgency = Urgency.Today, DateTime? standsOn = null,
        double celsius = 13) => new(
        kind,
        urgency,
        standsOn ?? Nine,
        new TemperatureEvidence(LifeStage.Egg, celsius, standsOn ?? Nine, 12.2, Nine, 10.5),
        Hazard.Around(Nine, hours, share) with { HoursLeft = left is { } h ? new Band(h / 2, h, h * 2) : null });

    public static Flag Flagged(Finding finding, FlagState state = FlagState.Open) => new()
    {
        Kind = finding.Kind,
        State = state,
        Urgency = finding.Urgency,
        StandsOn = finding.StandsOn,
        Evidence = finding.Evidence,
        Hazard = finding.Hazard,
        RuleVersion = Assessment.RuleVersion,
    };

    public static TroubledTank<string> Tank(string code, int fish, params Finding[] findings) => new(
        new TankProfile { Id = Guid.Empty, Code = code }, fish, TankStory.Eggs().Calendar, [.. findings.Select(f => (f.Kind.ToString(), f))]);
}
