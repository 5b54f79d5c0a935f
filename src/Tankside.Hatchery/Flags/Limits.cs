namespace Tankside.Hatchery.Flags;

/// <summary>A number that a programme may set for itself.</summary>
/// <param name="Key">Name under which a programme's own value is stored.</param>
/// <param name="Default">Value where the programme has set none.</param>
/// <param name="Unit">Unit of the value.</param>
/// <param name="Source">Where the default comes from; "common practice, no source" where nobody published it.</param>
public sealed record Setting(string Key, double Default, string Unit, string Source);

/// <summary>A programme's numbers: its own where set, the published default elsewhere.</summary>
public sealed class LimitSet(IReadOnlyDictionary<string, double> own)
{
    public static readonly LimitSet Defaults = new(new Dictionary<string, double>());

    public double this[Setting setting] => own.TryGetValue(setting.Key, out var value) ? value : setting.Default;
}

/// <summary>Every limit and deadline the rules use, in one place, each with its unit and source. None of them is law.</summary>
public static partial class Limits
{
    private const string Practice = "common practice, no source";
    private const string EggHeat = "best 7-10 °C, edge 15 °C (Kwain 1975); no brown trout hatched at 16 °C (Ojanguren & Brana 2003)";
    private const string Judgement = "judgement, no source";
    private const string Measured = Judgement + "; false alarms are measured";

    public static readonly Setting WarmLookEgg = new("warm.look.egg", 12.2, "°C", EggHeat);
    public static readonly Setting WarmActEgg = new("warm.act.egg", 15.0, "°C", EggHeat);
    public static readonly Setting WarmLookFry = new("warm.look.fry", 15.6, "°C", Practice);
    public static readonly Setting WarmActFry = new("warm.act.fry", 18.3, "°C", Practice);

    public static readonly Setting ColdLookEgg = new("cold.look.egg", 4, "°C", "Peterson et al. 1977; Murray & McPhail 1988");
    public static readonly Setting ColdActEgg = new("cold.act.egg", 2, "°C", "Murray & McPhail 1988");
    public static readonly Setting ColdLookFry = new("cold.look.fry", 3, "°C", Practice);
    public static readonly Setting ColdRefill = new("cold.refill", 2.8, "°C fallen at a water change", "5 °F: beyond it permits and handbooks ask for tempering");
    public static readonly Setting ColdActFry = new("cold.act.fry", 1, "°C", Practice);

    public static readonly Setting HeatLimitEgg = new("heat.limit.egg", 15, "°C", EggHeat);
    public static readonly Setting HeatLimitEggBrown = new("heat.limit.egg.brown", 14, "°C", "Ojanguren & Brana 2003");
    public static readonly Setting HeatLimitFry = new("heat.limit.fry", 20, "°C", Practice);
    public static readonly Setting HeatLimitFryBrown = new("heat.limit.fry.brown", 18, "°C", "half of young brown trout die at 20 °C");

    /// <summary>Where the first heat limit is already passed, time is counted to this one.</summary>
    public static readonly Setting HeatNextEgg = new("heat.next.egg", 18.3, "°C", Practice);
    public static readonly Setting HeatNextFry = new("heat.next.fry", 23, "°C", Practice);

    public static readonly Setting WarmingStep = new("warming.step", 1.1, "°C", "a rise of 2 °F over the last reading: " + Practice);
    public static readonly Setting WarmingAbove = new("warming.above", 1.0, "°C over set point", Practice);
    public static readonly Setting WarmingHorizon = new("warming.horizon", 72, "hours to the limit", Judgement);
    public static readonly Setting WarmingOwnSlope = new("warming.own-slope", 12, "hours between two readings", Judgement);

    public static readonly Setting IceBelow = new("ice.below", 4, "°C", Practice);
    public static readonly Setting IceSetPointAbove = new("ice.set-point-above", 6, "°C", Practice);

    public static readonly Setting SilentDays = new("silent.days", 2, "school days", Practice);
    public static readonly Setting SilentDaysAfterFlag = new("silent.days-after-flag", 1, "school days", Practice);
    public static readonly Setting SilentAfterBreakHour = new("silent.after-break-hour", 10, "o'clock, local", Practice);

    public static readonly Setting DieOffTail = new("die-off.tail", 0.001, "probability", Measured);
    public static readonly Setting DieOffFewest = new("die-off.fewest", 3, "dead in two days", Judgement);
    public static readonly Setting DieOffShareOfFish = new("die-off.share", 0.10, "share of the fish dead in two days, at which it is one in any case", Judgement);
    public static readonly Setting RiseInterval = new("die-off.rise-interval", 6, "dead over what is usual", Measured);
    public static readonly Setting RiseTail = new("die-off.rise-tail", 0.002, "probability of the dead of the rise", Measured);
    public static readonly Setting RiseTimes = new("die-off.rise-times", 2, "times the usual, which a slow rise is tuned to", Judgement);
    public static readonly Setting RiseAfter = new("die-off.rise-after", 10, "days here before a slow rise is looked for", Judgement);
    public static readonly Setting HatchLossTimes = new("die-off.hatch-times", 3, "times the usual loss, within 4 days of half hatch", Practice);
    public static readonly Setting LossPerFishDay = new("die-off.base", 0.002, "deaths a fish and day", Practice);

    public static readonly Setting SharedTail = new("shared.tail", 0.0002, "probability, after counting all groups asked", Measured);
    public static readonly Setting SharedFewest = new("shared.fewest", 3, "tanks in trouble", Judgement);
    public static readonly Setting SharedCut = new("shared.cut", 0.1, "chance at which a tank is in trouble at most", Judgement);
    public static readonly Setting SharedBaseWeight = new("shared.base-weight", 20, "tanks that the chance of trouble weighs against the others", Judgement);
    public static readonly Setting SharedObjection = new("shared.objection", 0.05, "probability over which the other tanks object", Judgement);
    public static readonly Setting SharedLossChance = new("shared.chance.loss", 0.003, "chance in a week that a tank has a die-off of its own", Measured);
    public static readonly Setting SharedRiseChance = new("shared.chance.rise", 0.02, "chance of a slow rise by itself", Measured);
    public static readonly Setting SharedEarlyHatchChance = new("shared.chance.early-hatch", 0.03, "chance of a hatch outside its interval by itself", "2.5% by the interval, rounded up");
    public static readonly Setting SharedWaterChance = new("shared.chance.water", 0.02, "chance of a bad water test by itself", Judgement);
    public static readonly Setting SharedPowerChance = new("shared.chance.power", 0.01, "chance of heat, chiller, pump or air trouble by itself within a day", Judgement);
    public static readonly Setting SharedChillerChance = new("shared.chance.chiller", 0.01, "chance of chiller trouble by itself", Judgement);
    public static readonly Setting SharedNear = new("shared.near", 24, "hours between troubles of one power cut", Judgement);
    public static readonly Setting SharedArrival = new("shared.arrival", 0.10, "share dead on arrival", Practice);

    public static readonly Setting AmmoniaLook = new("ammonia.look", 0.0103, "mg/L un-ionised, as N", "fish culturists' 0.0125 as NH3 (Meade 1985)");
    public static readonly Setting AmmoniaAct = new("ammonia.act", 0.0164, "mg/L un-ionised, as N", "0.02 as NH3; EPA 1976-era criterion 0.016 as N");
    public static readonly Setting AmmoniaPhAge = new("ammonia.ph-age", 7, "days a pH reading serves", Practice);
    public static readonly Setting CloudyDays = new("cloudy.days", 2, "days a word on cloudy water speaks for the water", Practice);
    public static readonly Setting FoamDays = new("cloudy.foam-days", 14, "days after half have hatched in which cloudy water is foam", Practice);
    public static readonly Setting AmmoniaDoubtPh = new("ammonia.doubt-ph", 8, "pH assumed for asking", Judgement);

    public static readonly Setting WaterTestAge = new("water-test.age", 4, "days a water test speaks for the water", Practice);

    public static readonly Setting OxygenLookEgg = new("oxygen.look.egg", 8, "mg/L", "EPA 1986, early life stages, 1-day minimum");
    public static readonly Setting OxygenActEgg = new("oxygen.act.egg", 6.5, "mg/L", "EPA 1986, embryos in the water, 7-day mean");
    public static readonly Setting OxygenLookFry = new("oxygen.look.fry", 6.5, "mg/L", "EPA 1986, other stages, 30-day mean");
    public static readonly Setting OxygenActFry = new("oxygen.act.fry", 5, "mg/L", "EPA 1986, other stages, 7-day mean of minima");
    public static readonly Setting OxygenFull = new("oxygen.full", 90, "% of what the water can hold, and never flagged", Judgement);
    public static readonly Setting OxygenOwnFall = new("oxygen.own-fall", 12, "hours between two readings", Judgement);
    public static readonly Setting OxygenBasket = new("oxygen.basket", 1, "mg/L less in a basket or gravel than at the probe", Judgement);
    public static readonly Setting OxygenLimitEgg = new("oxygen.limit.egg", 5, "mg/L", "EPA 1986, embryos in the water, 1-day minimum");
    public static readonly Setting OxygenLimitFry = new("oxygen.limit.fry", 4, "mg/L", "EPA 1986, other stages, 1-day minimum");
    public static readonly Setting StillBasketHours = new("pump.still-basket", 6, "hours, middle", "heaped eggs smother within hours: " + Practice);
    public static readonly Setting FryGrams = new("fry.grams", 0.12, "g each at least; older fry are reckoned heavier", Practice);

    public static readonly Setting RehearsalCallMinutes = new("rehearsal.call-minutes", 12, "minutes a call in a rehearsal", Judgement);
    public static readonly Setting PowerLasts = new("power.lasts", 6, "hours, middle, while nobody says when it ends", Judgement);
    public static readonly Setting PowerActNow = new("power.act-now", 6, "hours to the earliest loss", Judgement);
    public static readonly Setting PowerToday = new("power.today", 24, "hours to the earliest loss", Judgement);

    public static readonly Setting RoadFactor = new(Kit.KitSettings.RoadFactorKey, 1.3, "road km for each along the great circle", Judgement);
    public static readonly Setting KmAnHour = new(Kit.KitSettings.KmAnHourKey, 50, "km/h", Judgement);

    public static readonly Setting NitriteLook = new("nitrite.look", 0.06, "mg/L as N", "British Columbia guideline, short term, water with little chloride");
    public static readonly Setting NitriteAct = new("nitrite.act", 0.15, "mg/L as N, two tests in a row", Practice);
    public static readonly Setting NitriteFar = new("nitrite.far", 0.5, "mg/L as N, one test is enough", Practice);
    public static readonly Setting NitriteInARow = new("nitrite.in-a-row", 10, "days between two tests in a row", Judgement);

    public static readonly Setting ChlorineLimit = new("chlorine.limit", 0.02, "mg/L total", "0.019 for an hour, a US state standard");
    public static readonly Setting ChlorineQuick = new("chlorine.quick", 0.3, "mg/L total, kills quickly", Practice);
    public static readonly Setting GaspingAfterChange = new("chlorine.gasping", 24, "hours after a water change", Practice);

    public static readonly Setting MetalsDays = new("metals.days", 5, "days whose deaths are added up", Judgement);
    public static readonly Setting MetalsFewest = new("metals.fewest", 4, "dead in those days", Judgement);
    public static readonly Setting MetalsTail = new("metals.tail", 0.005, "probability", Judgement);
    public static readonly Setting MetalsOnset = new("metals.onset", 12, "days after hatch or swim-up", "later deaths of fry are hunger first: " + Practice);
    public static readonly Setting MetalsTestAge = new("metals.test-age", 7, "days in which every water test has to be good", Judgement);

    public static readonly Setting PhLow = new("ph.low", 6.5, "pH", "Piper 1982, 6.5-9.0");
    public static readonly Setting PhFall = new("ph.fall", 0.2, "pH a week", Practice);
    public static readonly Setting PhSpan = new("ph.span", 5, "days from the first to the last reading", Judgement);
    public static readonly Setting PhFallLeast = new("ph.fall-least", 0.4, "pH in all, three readings or more", Judgement + "; false alarms are measured");
    public static readonly Setting PhFallOfTwo = new("ph.fall-of-two", 0.6, "pH between only two readings", "kits are matched to 0.2-0.5: " + Practice);
    public static readonly Setting PhFallSure = new("ph.fall-sure", 5.5, "times its own error", Judgement + "; false alarms are measured");
    public static readonly Setting PhAge = new("ph.age", 14, "days a pH reading is looked at", Judgement);

    public static readonly Setting ContradictionAge = new("contradiction.age", 7, "days a contradiction is asked about", Judgement);
    public static readonly Setting ContradictionFall = new("contradiction.fall", 1.5, "°C fallen with the chiller said to be off", Judgement);

    /// <summary>Whole °C need more than whole °F: a steady tank (sd 0.3 °C) reads one whole °C for 15 days in half of all seasons.</summary>
    public static readonly Setting StuckFine = new("stuck.fine", 8, "equal looks at 0.1 °C", "no source: set by false-alarm rate, none in 400 steady seasons at sd 0.3 °C");
    public static readonly Setting StuckWhole = new("stuck.whole", 15, "equal looks at whole °F or half °C", "no source: set by false-alarm rate, 2 in 100 steady seasons at sd 0.3 °C");
    public static readonly Setting StuckWholeCelsius = new("stuck.whole-celsius", 30, "equal looks at whole °C", "no source: set by false-alarm rate, 11 in 100 steady seasons at sd 0.3 °C, 1 at 0.4");

    public static IReadOnlyList<Setting> All { get; } =
    [
        .. typeof(Limits).GetNestedTypes().Prepend(typeof(Limits)).SelectMany(t => t.GetFields())
            .Where(f => f.FieldType == typeof(Setting)).Select(f => (Setting)f.GetValue(null)!),
    ];

    /// <summary>
    /// How fast and how much is lost when nobody acts: the one table behind the order of the round. Shares are of the fish in the tank,
    /// hours are to the middle of the loss. All are judgement, to be replaced by a programme's own record.
    /// </summary>
    public static class Losses
    {
        public static readonly Setting WarmActShare = new("loss.warm-act.share", 0.30, "share", Judgement);
        public static readonly Setting WarmActHours = new("loss.warm-act.hours", 24, "hours", Judgement);
        public static readonly Setting WarmLookShare = new("loss.warm-look.share", 0.02, "share", Judgement);
        public static readonly Setting WarmLookHours = new("loss.warm-look.hours", 168, "hours", Judgement);
        public static readonly Setting ColdActShare = new("loss.cold-act.share", 0.10, "share", Judgement);
        public static readonly Setting ColdActHours = new("loss.cold-act.hours", 48, "hours", Judgement);
        public static readonly Setting ColdLookShare = new("loss.cold-look.share", 0.01, "share", Judgement);
        public static readonly Setting ColdLookHours = new("loss.cold-look.hours", 168, "hours", Judgement);
        public static readonly Setting IceShare = new("loss.ice.share", 0.50, "share", Judgement);
        public static readonly Setting IceHours = new("loss.ice.hours", 24, "hours", "5-20 h after the rise starts: " + Practice);
        public static readonly Setting HeatShare = new("loss.heat.share", 0.70, "share once the limit is passed", Judgement);
        public static readonly Setting HeatTolerance = new("loss.heat.tolerance", 24, "hours from the limit to the middle of the loss", Judgement);
        public static readonly Setting AirTolerance = new("loss.air.tolerance", 1, "hours from the limit to the middle of the loss", Judgement);
        public static readonly Setting ChillerDoubt = new("loss.chiller.doubt", 0.4, "chance that an idle chiller at set point is broken", Judgement);
        public static readonly Setting StillWaterShare = new("loss.still-water.share", 0.80, "share", Judgement);
        public static readonly Setting NoAirShare = new("loss.no-air.share", 0.40, "share", Judgement);
        public static readonly Setting LeakHours = new("loss.leak.hours", 3, "hours", Judgement);
        public static readonly Setting LeakShare = new("loss.leak.share", 0.80, "share", Judgement);
        public static readonly Setting CloudyHours = new("loss.cloudy.hours", 96, "hours", Judgement);
        public static readonly Setting CloudyShare = new("loss.cloudy.share", 0.02, "share", Judgement);
        public static readonly Setting DieOffShare = new("loss.die-off.share", 0.30, "share", Judgement);
        public static readonly Setting DieOffHours = new("loss.die-off.hours", 48, "hours", Judgement);
        public static readonly Setting SlowRiseShare = new("loss.slow-rise.share", 0.10, "share", Judgement);
        public static readonly Setting SlowRiseHours = new("loss.slow-rise.hours", 168, "hours", Judgement);
        public static readonly Setting SharedShare = new("loss.shared.share", 0.05, "share of the fish in tanks not yet in trouble", Judgement);
        public static readonly Setting SharedHours = new("loss.shared.hours", 48, "hours", Judgement);
        public static readonly Setting AmmoniaActShare = new("loss.ammonia-act.share", 0.30, "share", Judgement);
        public static readonly Setting AmmoniaActHours = new("loss.ammonia-act.hours", 48, "hours", "1-4 days: " + Practice);
        public static readonly Setting AmmoniaLookShare = new("loss.ammonia-look.share", 0.03, "share", Judgement);
        public static readonly Setting AmmoniaLookHours = new("loss.ammonia-look.hours", 168, "hours", Judgement);
        public static readonly Setting OxygenActShare = new("loss.oxygen-act.share", 0.50, "share", Judgement);
        public static readonly Setting OxygenActHours = new("loss.oxygen-act.hours", 24, "hours", Judgement);
        public static readonly Setting OxygenLookShare = new("loss.oxygen-look.share", 0.03, "share", Judgement);
        public static readonly Setting OxygenLookHours = new("loss.oxygen-look.hours", 168, "hours", Judgement);
        public static readonly Setting GaspingShare = new("loss.gasping.share", 0.50, "share", Judgement);
        public static readonly Setting GaspingHours = new("loss.gasping.hours", 6, "hours", Judgement);
        public static readonly Setting NitriteActShare = new("loss.nitrite-act.share", 0.25, "share", Judgement);
        public static readonly Setting NitriteActHours = new("loss.nitrite-act.hours", 48, "hours", "1-4 days: " + Practice);
        public static readonly Setting NitriteLookShare = new("loss.nitrite-look.share", 0.03, "share", Judgement);
        public static readonly Setting NitriteLookHours = new("loss.nitrite-look.hours", 168, "hours", Judgement);
        public static readonly Setting ChlorineShare = new("loss.chlorine.share", 0.90, "share", Judgement);
        public static readonly Setting ChlorineHours = new("loss.chlorine.hours", 6, "hours", "minutes to hours: " + Practice);
        public static readonly Setting ChlorineQuickHours = new("loss.chlorine-quick.hours", 2, "hours", "minutes to hours: " + Practice);
        public static readonly Setting MetalsShare = new("loss.metals.share", 0.25, "share", Judgement);
        public static readonly Setting MetalsHours = new("loss.metals.hours", 96, "hours", "days: " + Practice);
        public static readonly Setting PhLowShare = new("loss.ph-low.share", 0.10, "share", Judgement);
        public static readonly Setting PhFallShare = new("loss.ph-fall.share", 0.03, "share", Judgement);
        public static readonly Setting PhHours = new("loss.ph.hours", 168, "hours", "weeks: " + Practice);
        public static readonly Setting FungusShare = new("loss.fungus.share", 0.15, "share", Judgement);
        public static readonly Setting FungusLeftShare = new("loss.fungus-left.share", 0.30, "share where no dead are picked", Judgement);
        public static readonly Setting FungusHours = new("loss.fungus.hours", 84, "hours", "2-5 days to spread: " + Practice);
        public static readonly Setting ContradictoryShare = new("loss.contradictory.share", 0.03, "share", Judgement);
        public static readonly Setting ContradictoryHours = new("loss.contradictory.hours", 168, "hours", Judgement);
        public static readonly Setting ContradictoryChillerShare = new("loss.contradictory-chiller.share", 0.10, "share", Judgement);
        public static readonly Setting ContradictoryChillerHours = new("loss.contradictory-chiller.hours", 48, "hours", Judgement);
        public static readonly Setting StuckShare = new("loss.stuck.share", 0.03, "share", Judgement);
        public static readonly Setting StuckHours = new("loss.stuck.hours", 168, "hours", Judgement);
        public static readonly Setting LateHatchShare = new("loss.late-hatch.share", 0.02, "share", Judgement);
        public static readonly Setting LateHatchHours = new("loss.late-hatch.hours", 240, "hours", Judgement);
        public static readonly Setting FaultPerHour = new("loss.fault-per-hour", 1e-4, "faults an hour unseen", "chillers at 5-10% a 22-week season, pumps, plugs and filters together several times that: " + Practice);
        public static readonly Setting FaultAfterFlag = new("loss.fault-after-flag", 0.25, "chance of trouble when the last reading was bad", Judgement);
        public static readonly Setting PowerBasketShare = new("loss.power-basket.share", 0.2, "share of the alevins, those that lie heaped", Judgement);
        public static readonly Setting PowerNotBack = new("loss.power.not-back", 0.1, "chance that pump or chiller does not come back with the power", Judgement);
        public static readonly Setting TroubleSaidShare = new("loss.trouble-said.share", 0.5, "share", Judgement);
        public static readonly Setting TroubleSaidHours = new("loss.trouble-said.hours", 6, "hours", Judgement);
        public static readonly Setting SilentHours = new("loss.silent.hours", 18, "hours", Judgement);
    }
}
