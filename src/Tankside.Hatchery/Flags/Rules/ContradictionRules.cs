using Tankside.Hatchery.Readings;

namespace Tankside.Hatchery.Flags.Rules;

/// <summary>
/// Two facts that cannot both be true, of one look at the tank or of one egg's life. Nothing is judged by them here; somebody has to say which
/// is right, because limits and dates hang on it. A later word on either ends it.
/// </summary>
public static class ContradictionRules
{
    /// <summary>Readings this near together are one look.</summary>
    private static readonly TimeSpan OneLook = TimeSpan.FromMinutes(10);

    private sealed record Pair(SaidFact One, ReadingFact OneSaid, SaidFact Other, ReadingFact OtherSaid);

    public static Finding? CannotBothBe(Situation s)
    {
        var pair = Pairs(s).OfType<Pair>().Where(p => Newest(p) >= s.Now.AddDays(-s.Limits[Limits.ContradictionAge])).MaxBy(Newest);
        if (pair is null)
        {
            return null;
        }

        var at = Newest(pair);
        var evidence = new ContradictionEvidence(
            s.Stage, pair.One, pair.OneSaid.At, pair.Other, pair.OtherSaid.At, pair.OneSaid.Seen.WaterC, pair.OtherSaid.Seen.WaterC);
        var chiller = pair.One == SaidFact.ChillerOff;
        var hazard = Hazard.Around(
            at,
            s.Limits[chiller ? Limits.Losses.ContradictoryChillerHours : Limits.Losses.ContradictoryHours],
            s.Limits[chiller ? Limits.Losses.ContradictoryChillerShare : Limits.Losses.ContradictoryShare]);
        return new Finding(FlagKind.Contradictory, chiller ? Urgency.Today : Urgency.ThisWeek, at, evidence, hazard);
    }

    private static DateTime Newest(Pair pair) => pair.OneSaid.At > pair.OtherSaid.At ? pair.OneSaid.At : pair.OtherSaid.At;

    private static Pair?[] Pairs(Situation s)
    {
        var hatched = s.LastTold(r => r.Hatched);
        var none = hatched?.Seen.Hatched == Share.None ? hatched : null;
        return
        [
            SameLook(SaidFact.SomeSwim, s.LastTold(r => r.Swimming), r => r.Swimming >= Share.Some, none),
            SameLook(SaidFact.DeadAlevins, s.LastTold(r => r.DeadAlevins), r => r.DeadAlevins > 0, none),
            SameLook(SaidFact.DeadFry, s.LastTold(r => r.DeadFry), r => r.DeadFry > 0, none),
            SameLook(SaidFact.Fed, s.LastTold(r => r.Fed), r => r.Fed == true, none),
            HatchedBefore(s, none),
            FedBeforeAnyCouldHatch(s),
            CoolsWithoutItsChiller(s),
        ];
    }

    private static Pair? SameLook(SaidFact fact, ReadingFact? said, Func<Observation, bool> holds, ReadingFact? noneHatched) =>
        said is not null && noneHatched is not null && holds(said.Seen) && (said.At - noneHatched.At).Duration() <= OneLook
            ? new Pair(fact, said, SaidFact.NoneHatched, noneHatched)
            : null;

    /// <summary>What has hatched does not go back into the egg. Said twice, the earlier word was the slip.</summary>
    private static Pair? HatchedBefore(Situation s, ReadingFact? none) =>
        none is not null && s.Told.LastOrDefault(r => r.Seen.Hatched is not null && r.At < none.At) is { Seen.Hatched: >= Share.Most } before
            ? new Pair(SaidFact.MostHatched, before, SaidFact.NoneHatched, none)
            : null;

    /// <summary>Food given while no egg can have hatched yet and nobody has seen one: it rots.</summary>
    private static Pair? FedBeforeAnyCouldHatch(Situation s) =>
        s.LastTold(r => r.Fed) is { Seen.Fed: true } fed && !s.Development.HatchSeen
        && s.Development.Hatch is { } hatch && s.Record.Calendar.Clock.Day(fed.At) < hatch.Low95
            ? new Pair(SaidFact.Fed, fed, SaidFact.HatchNotDue, fed)
            : null;

    /// <summary>Said to be off at two looks hours apart, and the water fell between them in a warmer room, with no water changed.</summary>
    private static Pair? CoolsWithoutItsChiller(Situation s)
    {
        if (s.LastThatSays(r => r.ChillerRunning) is not { Seen: { ChillerRunning: false, WaterC: { } water } } last
            || water > s.RoomC - s.Limits[Limits.ContradictionFall] || s.Water!.At > last.At)
        {
            return null;
        }

        var before = s.Record.Recent.LastOrDefault(r => r.At < last.At && r.Seen.ChillerRunning is not null);
        var between = s.Record.Recent.Where(r => r.At > before?.At && r.At <= last.At);
        return before is { Seen: { ChillerRunning: false, WaterC: { } earlier } }
            && last.At - before.At is var gap && gap >= TimeSpan.FromHours(1) && gap <= TimeSpan.FromHours(24)
            && earlier - water >= s.Limits[Limits.ContradictionFall] && !between.Any(r => r.Seen.WaterChangedPercent > 0)
            ? new Pair(SaidFact.ChillerOff, last, SaidFact.WaterFell, before)
            : null;
    }
}
