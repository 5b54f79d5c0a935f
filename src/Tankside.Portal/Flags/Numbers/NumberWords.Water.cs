namespace Tankside.Portal.Flags.Numbers;

public static partial class NumberWords
{
    private static NumberGroup AmmoniaAndNitrite => new("ammonia-and-nitrite", "Ammonia and nitrite",
    [
        new("ammonia.look", "Ammonia: look", "That much un-ionised ammonia puts a tank on the round."),
        new("ammonia.act", "Ammonia: act", "That much un-ionised ammonia has to be acted on."),
        new("ammonia.ph-age", "Ammonia: age of the pH", "An older pH reading is not used to tell how much of the ammonia is poisonous."),
        new("ammonia.doubt-ph", "Ammonia: pH assumed", "Where no pH is known, a test that would be bad at this pH is asked about."),
        new("cloudy.days", "Cloudy water: days it speaks", "A word on cloudy water counts for this long."),
        new("cloudy.foam-days", "Cloudy water: foam after hatch", "So long after half have hatched cloudy water is taken for the foam of the shells."),
        new("water-test.age", "Age of a water test", "A test older than this says nothing about the water of today."),
        new("nitrite.look", "Nitrite: look", "That much nitrite puts a tank on the round."),
        new("nitrite.act", "Nitrite: act", "That much nitrite in two tests in a row has to be acted on."),
        new("nitrite.far", "Nitrite: act on one test", "That much nitrite has to be acted on at once, without a second test."),
        new("nitrite.in-a-row", "Nitrite: two tests in a row", "Two tests no further apart than this count as in a row."),
    ]);

    private static NumberGroup ChlorineAndMetals => new("chlorine-and-metals", "Chlorine and metals",
    [
        new("chlorine.limit", "Chlorine: limit", "Chlorine over this is told at once."),
        new("chlorine.quick", "Chlorine: kills quickly", "Over this the fish are reckoned lost within the shorter time."),
        new("chlorine.gasping", "Gasping after a water change", "Fish that gasp no longer than this after a water change raise the thought of chlorine."),
        new("metals.days", "Metals: days added up", "Deaths of so many days together are weighed when the water tests are good."),
        new("metals.fewest", "Metals: fewest dead", "Fewer deaths than this never raise the thought of copper or zinc."),
        new("metals.tail", "Metals: how unlikely by chance", "A larger value raises the thought sooner, and oftener for nothing."),
        new("metals.onset", "Metals: days after hatch or swim-up", "Later deaths of fry are taken for hunger first."),
        new("metals.test-age", "Metals: days of good tests", "All water tests of so many days have to be good before metals are thought of."),
    ]);

    private static NumberGroup Acid => new("ph", "pH",
    [
        new("ph.low", "pH: low", "A pH under this is told."),
        new("ph.fall", "pH: fall in a week", "A pH that falls faster than this is told."),
        new("ph.span", "pH: days between first and last", "A fall is only worked out from readings that reach over this time."),
        new("ph.fall-least", "pH: fall in all", "Three readings or more have to fall by this before it is told."),
        new("ph.fall-of-two", "pH: fall between two readings", "Where there are only two readings they have to lie this far apart."),
        new("ph.fall-sure", "pH: surer than its error", "The fall has to be so many times what chance would make of the readings."),
        new("ph.age", "pH: days looked at", "Older pH readings are not looked at."),
    ]);

    private static NumberGroup Doubt => new("doubt", "Readings that cannot be",
    [
        new("contradiction.age", "Contradiction: days it is asked", "Answers that contradict each other are asked about for this long."),
        new("contradiction.fall", "Contradiction: cooled without a chiller", "Water that fell by this much while the chiller is said to be off is asked about."),
        new("stuck.fine", "Stuck thermometer: read to a tenth", "So many equal readings to a tenth of a °C are told as a stuck thermometer."),
        new("stuck.whole", "Stuck thermometer: read to a whole °F or half °C", "So many equal readings are told as a stuck thermometer."),
        new("stuck.whole-celsius", "Stuck thermometer: read to a whole °C", "So many equal readings are told as a stuck thermometer."),
    ]);

    private static NumberGroup Faults => new("faults", "Faults of the kit",
    [
        new("fault.days", "Fault: days looked back", "The course of the water over so many days is read for signs of a fault."),
        new("fault.below", "Fault: under the set point", "Water this far under the set point is a sign of ice or of a thermostat that sticks."),
        new("fault.sudden", "Fault: sudden fall", "A fall of this much between two readings is a sign of its own."),
        new("fault.steady", "Fault: steady readings", "Readings within this of each other count as steady."),
        new("fault.steady-off", "Fault: steady, but off", "Steady readings this far from set point and room are a sign of a chiller too weak."),
        new("fault.peak", "Fault: warmer in the afternoon", "Afternoons warmer than mornings by this much are a sign of sun or a hot room."),
        new("fault.tick-age", "Fault: age of an answer", "An answer about pump or chiller speaks for this long beside a newer reading."),
        new("fault.hot-room", "Fault: hot room", "A room this far over its usual is a sign of its own."),
        new("fault.lead", "Fault: when one leads", "One cause has to hold this part of the suspicion before it is named first."),
    ]);

    private static NumberGroup FirstAid => new("first-aid", "Amounts that first aid names",
    [
        new("aid.cooling", "Cooling in a rescue", "First aid tells classes to cool no faster than this."),
        new("aid.warming", "Warming or cooling otherwise", "First aid tells classes to change the temperature no faster than this."),
        new("aid.match", "Box and tank alike", "Eggs go from the box into the tank once the two are this near."),
        new("aid.thaw", "Thawing a coil", "First aid tells classes to leave an iced chiller unplugged this long."),
        new("aid.acid-ph", "Small water changes under this pH", "In water more acid than this only small water changes are advised."),
        new("aid.change", "Water changed at once", "First aid advises to change this part of the water."),
        new("aid.change-acid", "Water changed at once in an acid tank", "First aid advises to change only this part where the water is acid."),
        new("aid.tap-chlorine", "Chlorine in tap water", "How much conditioner first aid names is worked out from this."),
        new("aid.small-tank", "Small tank", "Tanks under this are cooled with half-litre bottles, larger ones with bigger."),
    ]);
}
