using Tankside.Hatchery.Flags;

namespace Tankside.Portal.Flags.Readiness;

/// <summary>The gate before the eggs, in words.</summary>
public static class ReadyWords
{
    public static string Headline(TankAtTheGate tank) => tank.Verdict switch
    {
        { Ready: true } => $"{tank.Code} is ready for eggs.",
        { Signature: { } signed } => $"{tank.Code} is not ready, but {signed.SignedAs} has signed that eggs may come.",
        { Missing: [var only] } => $"Not ready: {Word(only, tank)}.",
        { Missing: var missing } => $"Not ready: {Word(missing[0], tank)}, and {CountWords.Count(missing.Count - 1, "thing", "things")} more.",
    };

    public static string Word(NotReadyReason reason, TankAtTheGate tank) => reason switch
    {
        NotReadyReason.NotLookedAt => "no adult has gone through the list",
        NotReadyReason.CoilUp => "the chiller’s coil or hoses are not down in the water",
        NotReadyReason.ProbeOut => "the chiller’s probe is not in the water",
        NotReadyReason.TubesKinked => "a tube is kinked, or nothing flows",
        NotReadyReason.FilterBare => "the filter plate is not covered with gravel",
        NotReadyReason.GravelDirty => "the gravel is not clean",
        NotReadyReason.WaterUnsafe => "the water has neither stood nor been dechlorinated",
        NotReadyReason.Unread => "no temperature was read in the last days",
        NotReadyReason.OffSetPoint => $"the water is not at its set point of {tank.Scale.Both(tank.Place.Tank.SetPointC)}",
        NotReadyReason.NotColdLongEnough => $"the water has not been at its set point for {tank.Record.Limits[Limits.Season.ReadyDays]:0} days yet",
    };

    public static string Promised(TankAtTheGate tank) => tank.Record.Expected is { } eggs
        ? $"{eggs.Eggs} eggs are due on {tank.Time.Day(eggs.On)}."
        : "No day is set for its eggs yet.";
}
