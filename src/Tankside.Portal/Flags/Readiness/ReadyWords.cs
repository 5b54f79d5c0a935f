using Tankside.Hatchery.Flags;

namespace Tankside.Portal.Flags.Readiness;

/// <summary>The gate before the eggs, in words.</summary>
public static class ReadyWords
{
    public static string Headline(TankAtTheGate tank) => tank.Verdict switch
    {
        { Ready: true } => tank.Say.Of("{0} is ready for eggs.", tank.Code),
        { Signature: { } signed } => tank.Say.Of("{0} is not ready, but {1} has signed that eggs may come.", tank.Code, signed.SignedAs),
        { Missing: [var only] } => tank.Say.Of("Not ready: {0}.", Word(only, tank)),
        { Missing: var missing } => tank.Say.Count(missing.Count - 1, "Not ready: {1}, and {0} thing more.", "Not ready: {1}, and {0} things more.", Word(missing[0], tank)),
    };

    public static string Word(NotReadyReason reason, TankAtTheGate tank) => reason switch
    {
        NotReadyReason.NotLookedAt => tank.Say["no adult has gone through the list"],
        NotReadyReason.CoilUp => tank.Say["the chiller’s coil or hoses are not down in the water"],
        NotReadyReason.ProbeOut => tank.Say["the chiller’s probe is not in the water"],
        NotReadyReason.TubesKinked => tank.Say["a tube is kinked, or nothing flows"],
        NotReadyReason.FilterBare => tank.Say["the filter plate is not covered with gravel"],
        NotReadyReason.GravelDirty => tank.Say["the gravel is not clean"],
        NotReadyReason.WaterUnsafe => tank.Say["the water has neither stood nor been dechlorinated"],
        NotReadyReason.Unread => tank.Say["no temperature was read in the last days"],
        NotReadyReason.OffSetPoint => tank.Say.Of("the water is not at its set point of {0}", tank.Scale.Both(tank.Place.Tank.SetPointC)),
        NotReadyReason.NotColdLongEnough => tank.Say.Of("the water has not been at its set point for {0:0} days yet", tank.Record.Limits[Limits.Season.ReadyDays]),
    };

    public static string Promised(TankAtTheGate tank) => tank.Record.Expected is { } eggs
        ? tank.Say.Of("{0} eggs are due on {1}.", eggs.Eggs, tank.Time.Day(eggs.On))
        : tank.Say["No day is set for its eggs yet."];
}
