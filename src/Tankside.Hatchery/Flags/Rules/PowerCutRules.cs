using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Places;
using Tankside.Science.Heat;
using Tankside.Science.Losses;
using Tankside.Science.Units;

namespace Tankside.Hatchery.Flags.Rules;

/// <summary>
/// A power cut over an area. Whoever has not been seen since is asked for at once, in the order of the hours that the tank has: the same
/// cut is a shrug over eggs in November and a matter of two hours over big fish in May.
/// </summary>
public static class PowerCutRules
{
    /// <summary>How wide the length of a cut spreads: 80% between a third and three times its middle (judgement).</summary>
    private const double CutSpread = 3;

    /// <summary>When the power went here, and when it was said to be back.</summary>
    private sealed record Cut(AreaMark Mark, DateTime Since, DateTime? BackAt)
    {
        /// <summary>The word that there is trouble or no power: only what is seen later is news.</summary>
        public SchoolWord? Bad => Mark.Word is { Answer: SweepAnswer.PowerOff or SweepAnswer.Trouble } word ? word : null;
    }

    private sealed record Loss(HoursFrom Limit, Hazard Hazard);

    public static Finding? NotSeenSinceTheCut(Situation s)
    {
        var cut = s.Record.Marks.Select(m => CutOf(m, s.Now)).OfType<Cut>().Where(c => !WasSeen(s, c)).MaxBy(c => c.Since);
        if (cut is null || s.Record.Lot!.DeliveredOn > s.Record.Calendar.Clock.Day(cut.Since))
        {
            return null;
        }

        var air = Air(s, cut);
        var (heat, heatLimit) = Heat(s, cut);
        var first = air is null || heat is not null && Middle(heat) < Middle(air) ? heat : air;
        var hazard = first?.Hazard ?? Hazard.Around(cut.Since, s.Limits[Limits.Losses.WarmLookHours], s.Limits[Limits.Losses.WarmLookShare]);
        var chance = ChanceOff(s, cut, hazard);
        hazard = AsSaid(s, cut, hazard with { ShareLost = hazard.ShareLost * chance, HoursLeft = cut.BackAt is null ? hazard.HoursLeft : null });
        var last = s.Record.Recent is [.., var newest] ? newest : null;
        var evidence = new PowerCutEvidence(
            s.Stage, cut.Since, cut.Mark.Reason == SweepReason.PowerCut ? cut.Mark.Until : null, cut.BackAt, last?.At, s.WaterC,
            s.LastTold(r => r.Moving)?.Seen.Moving, s.Record.Fish, air?.Limit.Passes, heat?.Limit.Passes, heatLimit,
            first is not null && first == air, cut.Bad, chance);
        var standsOn = cut.Bad is { } bad && bad.At > cut.Since ? bad.At : cut.Since;
        return new Finding(FlagKind.Silent, Urgent(s, cut, hazard), standsOn, evidence, hazard);
    }

    /// <summary>Where an adult sees trouble already, it does not wait for the hours of the model.</summary>
    private static Hazard AsSaid(Situation s, Cut cut, Hazard hazard)
    {
        if (cut.Bad is not { Answer: SweepAnswer.Trouble, At: var at })
        {
            return hazard;
        }

        var said = Hazard.Around(at, s.Limits[Limits.Losses.TroubleSaidHours], s.Limits[Limits.Losses.TroubleSaidShare]);
        var sooner = hazard.From.AddHours(hazard.HoursToHarm.Mid) <= at.AddHours(said.HoursToHarm.Mid);
        return sooner ? hazard with { ShareLost = Math.Max(hazard.ShareLost, said.ShareLost) } : said with { HoursLeft = hazard.HoursLeftAt(at) };
    }

    private static DateTime Middle(Loss loss) => loss.Hazard.From.AddHours(loss.Hazard.HoursToHarm.Mid);

    /// <summary>A mark of a power cut, or an adult's word that the power is off in whatever else was marked.</summary>
    private static Cut? CutOf(AreaMark mark, DateTime now)
    {
        var off = mark.Word is { Answer: SweepAnswer.PowerOff } word ? word.At : (DateTime?)null;
        var since = mark.Reason == SweepReason.PowerCut ? mark.From : off;
        if (since is not { } at || at > now || mark.EndedAt <= mark.From)
        {
            return null;
        }

        return new Cut(mark, at, mark.EndedAt is { } ended && ended <= now && !(off > ended) ? ended : null);
    }

    /// <summary>
    /// Seen since: the water was said to move or to stand (which is a flag of its own), all was said to be well, or, once the power is
    /// back, anything at all was read.
    /// </summary>
    private static bool WasSeen(Situation s, Cut cut)
    {
        var from = cut.Bad is { } bad && bad.At > cut.Since ? bad.At : cut.Since;
        return s.AllWellAt >= from
            || s.Record.Recent.Any(r => r.At > from && (r.Seen.Moving ?? r.Seen.Bubbles) is not null || cut.BackAt is { } back && r.At > back);
    }

    private static Loss? Air(Situation s, Cut cut)
    {
        if (FlowRules.HoursWithoutPower(s) is not { } hours)
        {
            return null;
        }

        var share = s.Limits[s.Stage == LifeStage.Alevin ? Limits.Losses.PowerBasketShare : Limits.Losses.StillWaterShare];
        return new Loss(new HoursFrom(cut.Since, hours), Hazard.AfterLimit(cut.Since, hours, s.Limits[Limits.Losses.AirTolerance], share));
    }

    /// <summary>From the last temperature on when it was read during the cut, else from the cut on; without the pump its heat is gone too.</summary>
    private static (Loss? Loss, double Limit) Heat(Situation s, Cut cut)
    {
        var from = s.Water is { } read && read.At > cut.Since ? read.At : cut.Since;
        var water = s.WaterC ?? s.Tank.SetPointC;
        var limit = s.HeatLimitFor(water);
        var (mid, logSd) = Warming.TimeConstant(new Litres(s.Tank.Litres), s.Tank.Jacket);
        if (Warming.HoursTo(new Celsius(limit), new Celsius(water), new Celsius(s.RoomC), mid, logSd) is not { } hours)
        {
            return (null, limit);
        }

        var hazard = Hazard.AfterLimit(from, hours, s.Limits[Limits.Losses.HeatTolerance], s.Limits[Limits.Losses.HeatShare]);
        return (new Loss(new HoursFrom(from, hours), hazard), limit);
    }

    /// <summary>
    /// The chance that the power is still away when fish are lost: by how long cuts last, this one as long as it was said to, and by how
    /// long it has lasted already. Once it is back, that of a pump or chiller that did not come back with it.
    /// </summary>
    private static double ChanceOff(Situation s, Cut cut, Hazard hazard)
    {
        var notBack = s.Limits[Limits.Losses.PowerNotBack];
        var harm = (hazard.From - cut.Since).TotalHours + hazard.HoursToHarm.Mid;
        if (cut.BackAt is { } back)
        {
            return (back - cut.Since).TotalHours >= hazard.HoursToHarm.Low ? 1 : notBack;
        }

        var said = cut.Mark.Reason == SweepReason.PowerCut && cut.Mark.Until > cut.Since ? (cut.Mark.Until.Value - cut.Since).TotalHours : 0;
        var lasts = said > 0 ? said : s.Limits[Limits.PowerLasts];
        var (mu, sigma) = Lognormal.FromBand(new Band(lasts / CutSpread, lasts, lasts * CutSpread));
        var passed = (s.Now - cut.Since).TotalHours;
        var lasted = passed <= 0 ? 1 : 1 - Lognormal.Cdf(passed, mu, sigma);
        var chance = harm <= passed || lasted <= 0 ? 1 : (1 - Lognormal.Cdf(harm, mu, sigma)) / lasted;
        return Math.Max(notBack, Math.Round(chance * 20, MidpointRounding.AwayFromZero) / 20);
    }

    private static Urgency Urgent(Situation s, Cut cut, Hazard hazard)
    {
        var earliest = hazard.From.AddHours(hazard.HoursToHarm.Low);
        if (cut.BackAt is { } back)
        {
            return earliest <= back ? Urgency.ActNow : Urgency.Today;
        }

        var left = (earliest - s.Now).TotalHours;
        return cut.Bad is { Answer: SweepAnswer.Trouble } || left <= s.Limits[Limits.PowerActNow] ? Urgency.ActNow
            : cut.Bad is not null || left <= s.Limits[Limits.PowerToday] ? Urgency.Today
            : Urgency.ThisWeek;
    }
}
