namespace Tankside.Portal.Flags.Numbers;

public static partial class NumberWords
{
    private static NumberGroup WarmAndCold => new("warm-and-cold", "Warm and cold",
    [
        new("warm.look.egg", "Eggs and alevins warm: look", "At this water temperature a tank with eggs or alevins is put on the round to be looked at."),
        new("warm.act.egg", "Eggs and alevins warm: act", "At this water temperature a tank with eggs or alevins has to be acted on today."),
        new("warm.look.fry", "Fry warm: look", "At this water temperature a tank with fry is put on the round to be looked at."),
        new("warm.act.fry", "Fry warm: act", "At this water temperature a tank with fry has to be acted on today."),
        new("cold.look.egg", "Eggs and alevins cold: look", "At or under this water temperature a tank with eggs or alevins is put on the round to be looked at."),
        new("cold.act.egg", "Eggs and alevins cold: act", "At or under this water temperature a tank with eggs or alevins has to be acted on today."),
        new("cold.look.fry", "Fry cold: look", "At or under this water temperature a tank with fry is put on the round to be looked at."),
        new("cold.act.fry", "Fry cold: act", "At or under this water temperature a tank with fry has to be acted on today."),
        new("cold.refill", "Fall at a water change", "A water change that cools the tank by this much is told as too sudden."),
        new("heat.limit.egg", "Limit of heat for eggs and alevins", "Hours left are counted until the water reaches it; past it, fish are lost."),
        new("heat.limit.egg.brown", "Limit of heat for brown trout eggs", "The same for brown trout, which stand less."),
        new("heat.limit.fry", "Limit of heat for fry", "Hours left of a tank with fry are counted until the water reaches it."),
        new("heat.limit.fry.brown", "Limit of heat for brown trout fry", "The same for brown trout fry, which stand less."),
        new("heat.next.egg", "Next limit of heat for eggs and alevins", "Where the first limit is passed already, hours left are counted to this one."),
        new("heat.next.fry", "Next limit of heat for fry", "Where the first limit is passed already, hours left are counted to this one."),
        new("ice.below", "Ice: water colder than this", "Under this temperature a tank set much warmer is asked about ice on its coil."),
        new("ice.set-point-above", "Ice: set point warmer than this", "Only tanks set warmer than this are asked about ice when they read cold."),
    ]);

    private static NumberGroup Warming => new("warming", "Water that warms",
    [
        new("warming.step", "Rise that counts as warming", "A rise of this much since the last reading is told as warming."),
        new("warming.above", "Warming: this far over the set point", "Water that rises is only told once it is this far over what the chiller is set to."),
        new("warming.horizon", "Warming: hours looked ahead", "A rising tank is told when it would reach its limit within this time."),
        new("warming.own-slope", "Warming: hours between two readings", "Two readings no further apart than this show the tank’s own speed of warming; otherwise it is worked out."),
    ]);

    private static NumberGroup Power => new("power", "Power cuts",
    [
        new("power.lasts", "How long a cut lasts", "What a power cut costs is reckoned with this duration while nobody says when it ends."),
        new("power.act-now", "Power cut: act at once", "A tank whose first loss in a cut is nearer than this cannot wait."),
        new("power.today", "Power cut: act today", "A tank whose first loss in a cut is nearer than this is for today."),
    ]);

    private static NumberGroup Oxygen => new("oxygen", "Oxygen",
    [
        new("oxygen.look.egg", "Oxygen for eggs and alevins: look", "Less oxygen than this puts a tank with eggs or alevins on the round."),
        new("oxygen.act.egg", "Oxygen for eggs and alevins: act", "Less oxygen than this in a tank with eggs or alevins has to be acted on."),
        new("oxygen.look.fry", "Oxygen for fry: look", "Less oxygen than this puts a tank with fry on the round."),
        new("oxygen.act.fry", "Oxygen for fry: act", "Less oxygen than this in a tank with fry has to be acted on."),
        new("oxygen.full", "Full of air", "Water that holds at least this part of what it can is never told, however little that is at a high place."),
        new("oxygen.own-fall", "Oxygen: hours between two readings", "Two readings no further apart than this show how fast the tank itself uses oxygen up."),
        new("oxygen.basket", "Less in a basket", "So much less is reckoned between eggs in a basket or gravel than the probe in open water reads."),
        new("oxygen.limit.egg", "Limit of oxygen for eggs and alevins", "Hours left without air are counted until oxygen has fallen to this."),
        new("oxygen.limit.fry", "Limit of oxygen for fry", "Hours left without air are counted until oxygen has fallen to this."),
        new("pump.still-basket", "Heaped eggs in still water", "When the pump stops, eggs heaped in a basket are reckoned lost after this time."),
        new("fry.grams", "Weight of a fry", "A heavier fry uses more oxygen, so that hours left without air become fewer."),
    ]);
}
