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
public static class Limits
{
    private const string Practice = "common practice, no source";
    private const string EggHeat = "best 7-10 °C, edge 15 °C (Kwain 1975); no brown trout hatched at 16 °C (Ojanguren & Brana 2003)";
    private const string Judgement = "judgement, no source";

    public static readonly Setting WarmLookEgg = new("warm.look.egg", 12.2, "°C", EggHeat);
    public static readonly Setting WarmActEgg = new("warm.act.egg", 15.0, "°C", EggHeat);
    public static readonly Setting WarmLookFry = new("warm.look.fry", 15.6, "°C", Practice);
    public static readonly Setting WarmActFry = new("warm.act.fry", 18.3, "°C", Practice);

    public static readonly Setting ColdLookEgg = new("cold.look.egg", 4, "°C", "Peterson et al. 1977; Murray & McPhail 1988");
    public static readonly Setting ColdActEgg = new("cold.act.egg", 2, "°C", "Murray & McPhail 1988");
    public static readonly Setting ColdLookFry = new("cold.look.fry", 3, "°C", Practice);
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

    public static readonly Setting DieOffTail = new("die-off.tail", 0.001, "probability", Judgement + "; false alarms are measured");
    public static readonly Setting DieOffFewest = new("die-off.fewest", 3, "dead in two days", Judgement);
    public static readonly Setting LossPerFishDay = new("die-off.base", 0.002, "deaths a fish and day", Practice);

    public static readonly Setting AmmoniaLook = new("ammonia.look", 0.0103, "mg/L un-ionised, as N", "fish culturists' 0.0125 as NH3 (Meade 1985)");
    public static readonly Setting AmmoniaAct = new("ammonia.act", 0.0164, "mg/L un-ionised, as N", "0.02 as NH3; EPA 1976-era criterion 0.016 as N");
    public static readonly Setting AmmoniaPhAge = new("ammonia.ph-age", 7, "days a pH reading serves", Practice);
    public static readonly Setting AmmoniaDoubtPh = new("ammonia.doubt-ph", 8, "pH assumed for asking", Judgement);

    public static readonly Setting OxygenLimitEgg = new("oxygen.limit.egg", 5, "mg/L", "EPA 1986, embryos in the water, 1-day minimum");
    public static readonly Setting OxygenLimitFry = new("oxygen.limit.fry", 4, "mg/L", "EPA 1986, other stages, 1-day minimum");
    public static readonly Setting StillBasketHours = new("pump.still-basket", 6, "hours, middle", "heaped eggs smother within hours: " + Practice);
    public static readonly Setting FryGrams = new("fry.grams", 0.12, "g each at least; older fry are reckoned heavier", Practice);

    public static IReadOnlyList<Setting> All { get; } =
    [
        .. typeof(Limits).GetFields().Concat(typeof(Losses).GetFields())
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
        public static readonly Setting DieOffShare = new("loss.die-off.share", 0.30, "share", Judgement);
        public static readonly Setting DieOffHours = new("loss.die-off.hours", 48, "hours", Judgement);
        public static readonly Setting AmmoniaActShare = new("loss.ammonia-act.share", 0.30, "share", Judgement);
        public static readonly Setting AmmoniaActHours = new("loss.ammonia-act.hours", 48, "hours", "1-4 days: " + Practice);
        public static readonly Setting AmmoniaLookShare = new("loss.ammonia-look.share", 0.03, "share", Judgement);
        public static readonly Setting AmmoniaLookHours = new("loss.ammonia-look.hours", 168, "hours", Judgement);
        public static readonly Setting LateHatchShare = new("loss.late-hatch.share", 0.02, "share", Judgement);
        public static readonly Setting LateHatchHours = new("loss.late-hatch.hours", 240, "hours", Judgement);
        public static readonly Setting FaultPerHour = new("loss.fault-per-hour", 1e-4, "faults an hour unseen", "chillers at 5-10% a 22-week season, pumps, plugs and filters together several times that: " + Practice);
        public static readonly Setting FaultAfterFlag = new("loss.fault-after-flag", 0.25, "chance of trouble when the last reading was bad", Judgement);
        public static readonly Setting SilentHours = new("loss.silent.hours", 18, "hours", Judgement);
    }
}
