namespace Tankside.Portal.Flags;

/// <summary>What to say about dates, readiness and the account.</summary>
public static partial class FirstAid
{
    private static FirstAidCard EarlyHatch => new(
        [
            "An early hatch is normal for warm or sterile lots: dim light, do not feed, skim off foam and shells.",
            "Check the thermometer: a glass of ice and water, five minutes, should say 32 °F (0 °C).",
            "I will move your feeding date: everything after hatch comes earlier too.",
        ],
        [AgencyWins],
        "Did other rooms of this lot hatch early too?");

    private static FirstAidCard FeedingNearBreak => new(
        [
            "Work out with me which way to move swim-up: a colder set point puts it off, a warmer one brings it on. One degree at a time.",
            "If it cannot be moved: a holding tank with somebody to feed over the break.",
            "Write down a named adult and a telephone number for every closed day.",
        ],
        ["Change the set point by no more than 2 °F (1.1 °C) in a day, and stay inside what the eggs bear.", AgencyWins],
        "Who has a key during the break, and can they feed small amounts several times a day?");

    private static FirstAidCard NotReady => new(
        [
            "Read the water now and tell me the number.",
            "Is the chiller set and running, lid and jacket on, tank out of the sun?",
            "If it is not cold by then, the eggs wait in a holding tank or come later. They are not put into warm water.",
        ],
        [AdultAtThePlug, AgencyWins],
        "Since when has the chiller been running, and what does its set screen say?");

    private static FirstAidCard Tally => new(
        [
            "Go through the tank's ledger with the teacher: deliveries, losses, moves, releases, counts.",
            "Enter what was forgotten; take back what was entered twice. Never make a number fit: what cannot be explained stays unaccounted.",
        ],
        ["The report to the agency says how was counted.", AgencyWins],
        "How was counted, and were fish moved or released without an entry?");
}
