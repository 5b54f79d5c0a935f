using Tankside.Hatchery.Readings;
using Tankside.Science.Units;

namespace Tankside.Hatchery.Flags.Rules;

/// <summary>
/// Too little oxygen in the water, measured, or shown by fish that gasp. A tank that holds nearly all that its water can hold at that
/// height is not flagged for what it cannot reach.
/// </summary>
public static class OxygenRules
{
    /// <summary>Error of one oxygen reading, mg/L (judgement).</summary>
    private const double ReadingSd = 0.3;

    /// <summary>Nearer together than this, two readings say nothing of a pace, h.</summary>
    private const double LeastHours = 0.5;

    /// <summary>A logger's readings come minutes apart: the pace is taken over at least this long where there is one, h.</summary>
    private const double EnoughHours = 2;

    public static Finding? LowOxygen(Situation s)
    {
        var test = WaterTests.Newest(s, r => r.OxygenMgL);
        var gasps = Gasping.Said(s);
        return test is not null && IsLow(s, test) ? Measured(s, test, gasps.Count > 0) : GaspingAlone(s, test, gasps);
    }

    private static bool IsLow(Situation s, ReadingFact test)
    {
        var oxygen = test.Seen.OxygenMgL!.Value;
        var percent = 100 * oxygen / OxygenHours.Full(s, WaterTests.WaterAt(s, test));
        return oxygen < s.OfStage(Limits.OxygenLookEgg, Limits.OxygenLookFry) && percent < s.Limits[Limits.OxygenFull];
    }

    private static Finding Measured(Situation s, ReadingFact test, bool gasping)
    {
        var oxygen = test.Seen.OxygenMgL!.Value;
        var act = s.OfStage(Limits.OxygenActEgg, Limits.OxygenActFry);
        var isAct = oxygen < act;
        var earlier = Earlier(s, test);
        var limit = HoursLimit(s);
        var left = oxygen <= limit ? new Band(0, 0, 0)
            : earlier is not null ? OwnFall(earlier, test, limit)
            : StandingWater(s, test, limit, isAct);
        var unattended = MorningRound.ActTimes(s.Record.Calendar, s.Now).IfNot;
        var mustAct = isAct || gasping || (left is { } l && test.At.AddHours(l.Low) <= unattended);
        var full = OxygenHours.Full(s, WaterTests.WaterAt(s, test));
        var evidence = new OxygenEvidence(
            s.Stage, oxygen, test.At, Math.Round(100 * oxygen / full, 1), isAct ? act : s.OfStage(Limits.OxygenLookEgg, Limits.OxygenLookFry),
            earlier?.Seen.OxygenMgL, earlier?.At, limit, Situation.PassTimes(test.At, left), gasping);
        return new Finding(FlagKind.LowOxygen, mustAct ? Urgency.ActNow : Urgency.Today, test.At, evidence, Harm(s, test.At, left, isAct || gasping));
    }

    /// <summary>No test, or only one from before they began: what they do is the sign. Where a water change explains it, that flag stands instead.</summary>
    private static Finding? GaspingAlone(Situation s, ReadingFact? test, IReadOnlyList<ReadingFact> gasps)
    {
        if (gasps.Count == 0 || test?.At >= gasps[^1].At || ChlorineRules.Chlorine(s) is not null)
        {
            return null;
        }

        var at = gasps[0].At;
        var evidence = new OxygenEvidence(s.Stage, null, at, null, null, null, null, HoursLimit(s), null, true);
        var hazard = Hazard.Around(at, s.Limits[Limits.Losses.GaspingHours], s.Limits[Limits.Losses.GaspingShare]);
        return new Finding(FlagKind.LowOxygen, Urgency.ActNow, at, evidence, hazard);
    }

    private static Hazard Harm(Situation s, DateTime at, Band? left, bool isAct) => (left, isAct) switch
    {
        ({ } hours, _) => Hazard.AfterLimit(at, hours, s.Limits[Limits.Losses.AirTolerance], s.Limits[Limits.Losses.OxygenActShare]),
        (null, true) => Hazard.Around(at, s.Limits[Limits.Losses.OxygenActHours], s.Limits[Limits.Losses.OxygenActShare]),
        (null, false) => Hazard.Around(at, s.Limits[Limits.Losses.OxygenLookHours], s.Limits[Limits.Losses.OxygenLookShare]),
    };

    /// <summary>The level that time is counted to. In a basket or gravel the water holds less than where the probe hangs.</summary>
    private static double HoursLimit(Situation s) =>
        s.Swims ? s.Limits[Limits.OxygenLimitFry] : s.Limits[Limits.OxygenLimitEgg] + s.Limits[Limits.OxygenBasket];

    private static ReadingFact? Earlier(Situation s, ReadingFact test)
    {
        var before = s.Told
            .Where(r => r.Seen.OxygenMgL is not null && r.At <= test.At.AddHours(-LeastHours) && r.At >= test.At.AddHours(-s.Limits[Limits.OxygenOwnFall]))
            .ToList();
        return before.LastOrDefault(r => r.At <= test.At.AddHours(-EnoughHours)) ?? before.FirstOrDefault();
    }

    /// <summary>By the tank's own two readings; null when it does not fall by more than a reading's error.</summary>
    private static Band? OwnFall(ReadingFact earlier, ReadingFact test, double limit)
    {
        var hours = (test.At - earlier.At).TotalHours;
        var fall = earlier.Seen.OxygenMgL!.Value - test.Seen.OxygenMgL!.Value;
        if (fall <= ReadingSd)
        {
            return null;
        }

        var room = test.Seen.OxygenMgL!.Value - limit;
        var error = Science.Losses.Normal.EightyPercent * Math.Sqrt(2) * ReadingSd;
        var mid = room * hours / fall;
        var high = fall > error ? Math.Min(room * hours / (fall - error), mid * 4) : mid * 4;
        return new Band(room * hours / (fall + error), mid, high);
    }

    /// <summary>
    /// By size, stage and number, as if the water stood still. Water that is said to move or bubble is losing its oxygen to something
    /// that no formula knows: then nobody can say how long.
    /// </summary>
    private static Band? StandingWater(Situation s, ReadingFact test, double limit, bool isAct)
    {
        var moving = s.LastTold(r => r.Moving)?.Seen.Moving;
        var bubbles = s.LastTold(r => r.Bubbles)?.Seen.Bubbles;
        var stopped = moving == false || bubbles == false;
        if (!stopped && (moving ?? bubbles ?? !isAct))
        {
            return null;
        }

        var tank = OxygenHours.OfTank(s, WaterTests.WaterAt(s, test), test.Seen.OxygenMgL!.Value, limit);
        return moving == false ? OxygenHours.WhereTheyLie(s, tank) : tank;
    }
}
