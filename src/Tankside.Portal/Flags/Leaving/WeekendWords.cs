using System.Globalization;
using Tankside.Hatchery.Flags;
using Tankside.Portal.Shell;

namespace Tankside.Portal.Flags.Leaving;

/// <summary>The answer for many tanks at once. Schools close at different hours; the times are those of most of them.</summary>
public sealed class WeekendWords
{
    private readonly ClockWords clock;
    private readonly LeftTank most;
    private readonly IReadOnlyList<LeftTank> tanks;
    private readonly DateTime now;
    private readonly bool oneBell;
    private readonly Say say;

    /// <param name="tanks">At least one.</param>
    public WeekendWords(IReadOnlyList<LeftTank> tanks, DateTime now, Say? reader = null)
    {
        say = reader ?? Say.InEnglish;
        (this.tanks, this.now) = (tanks, now);
        most = tanks.GroupBy(t => t.Answer.Stretch.Bell).MaxBy(g => g.Count())!.First();
        clock = new ClockWords(most.Place.Calendar.Clock, now, reader);
        oneBell = tanks.All(t => t.Answer.Stretch.Bell == most.Answer.Stretch.Bell);
    }

    private int Needing => tanks.Count(t => t.NeedsSomething);

    private bool HasBegun => most.Answer.Stretch.HasBegun(now);

    private bool IsToday => most.Place.Calendar.Clock.Day(most.Answer.Stretch.Bell) == most.Place.Calendar.Clock.Day(now);

    /// <summary>"Safe to leave till Monday?"</summary>
    public string Question => most.Answer.Stretch.Opens is null
        ? say["Safe to leave?"]
        : say.Of("Safe to leave till {0}?", clock.Weekday(most.Answer.ActsAt));

    /// <summary>"5 of 46 tanks need something before the bell at 15:15."</summary>
    public string Answer => (Needing, HasBegun) switch
    {
        (0, _) => tanks.Count == 1 ? say.Of("The tank is safe to leave {0}.", Till) : say.Of("All {0} tanks are safe to leave {1}.", tanks.Count, Till),
        (var n, true) => say.Of("{0} somebody to look before {1}.", Of(n), clock.When(most.Answer.Stretch.Until)),
        (var n, false) when IsToday => oneBell
            ? say.Of("{0} something before the bell at {1}.", Of(n), clock.Clock(most.Answer.Stretch.Bell))
            : say.Of("{0} something before the bell at {1} (most schools).", Of(n), clock.Clock(most.Answer.Stretch.Bell)),
        (var n, false) => say.Of("{0} something before {1}'s bell, as it stands today.", Of(n), clock.Weekday(most.Answer.Stretch.Bell)),
    };

    /// <summary>What the stretch is: "Closed from Wed 15:15 to Mon 08:00, 113 hours."</summary>
    public string Stretch
    {
        get
        {
            var s = most.Answer.Stretch;
            var hours = s.Hours.ToString("#,0", CultureInfo.InvariantCulture);
            var others = oneBell ? "" : say["; other schools keep other hours, each row has its own"];
            return s.Opens is null
                ? say.Of("No school day is in sight after {0}: reckoned as {1} days without anybody.", clock.When(s.Bell), s.ClosedDays.Count)
                : say.Of("Closed from {0} to {1}, {2} hours{3}.", clock.When(s.Bell), clock.When(s.Until), hours, others);
        }
    }

    public string Till => most.WordsAt(now, say).Till;

    /// <summary>Its own stretch, where a school keeps other hours than most; else empty.</summary>
    public string OwnStretch(LeftTank tank) => tank.Answer.Stretch.Bell == most.Answer.Stretch.Bell && tank.Answer.Stretch.Until == most.Answer.Stretch.Until
        ? ""
        : say.Of("Closed from {0}, {1}.", clock.When(tank.Answer.Stretch.Bell), tank.WordsAt(now, say).Till);

    private string Of(int needing) => tanks.Count == 1
        ? say["The tank needs"]
        : say.Count(needing, "{0} of {1} tanks needs", "{0} of {1} tanks need", tanks.Count);

    /// <summary>The programme's own number, this season and last week.</summary>
    public static string Of(NotKnownOfProgramme known, Say? reader = null)
    {
        var say = reader ?? Say.InEnglish;
        return known.Weeks is [.., var week, _]
            ? say.Of("Nobody knew for {0} on average this season; last week {1}.", Hours(known.Average, say), Hours(week.Average, say))
            : say.Of("Nobody knew for {0} on average this season.", Hours(known.Average, say));
    }

    /// <summary>"19 hours", "2.5 hours"</summary>
    public static string Hours(double hours, Say? reader = null) => Math.Round(hours, hours < 9.95 ? 1 : 0) switch
    {
        1 => (reader ?? Say.InEnglish)["1 hour"],
        var rounded => (reader ?? Say.InEnglish).Of("{0} hours", rounded.ToString("#,0.#", CultureInfo.InvariantCulture)),
    };
}
