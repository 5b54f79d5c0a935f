using System.Globalization;
using Tankside.Hatchery.Flags;

namespace Tankside.Portal.Flags.Leaving;

/// <summary>The answer for many tanks at once. Schools close at different hours; the times are those of most of them.</summary>
public sealed class WeekendWords
{
    private readonly ClockWords clock;
    private readonly LeftTank most;
    private readonly IReadOnlyList<LeftTank> tanks;
    private readonly DateTime now;
    private readonly bool oneBell;

    /// <param name="tanks">At least one.</param>
    public WeekendWords(IReadOnlyList<LeftTank> tanks, DateTime now)
    {
        (this.tanks, this.now) = (tanks, now);
        most = tanks.GroupBy(t => t.Answer.Stretch.Bell).MaxBy(g => g.Count())!.First();
        clock = new ClockWords(most.Place.Calendar.Clock, now);
        oneBell = tanks.All(t => t.Answer.Stretch.Bell == most.Answer.Stretch.Bell);
    }

    private int Needing => tanks.Count(t => t.NeedsSomething);

    private bool HasBegun => most.Answer.Stretch.HasBegun(now);

    private bool IsToday => most.Place.Calendar.Clock.Day(most.Answer.Stretch.Bell) == most.Place.Calendar.Clock.Day(now);

    /// <summary>"Safe to leave till Monday?"</summary>
    public string Question => most.Answer.Stretch.Opens is null
        ? "Safe to leave?"
        : $"Safe to leave till {clock.Weekday(most.Answer.ActsAt)}?";

    /// <summary>"5 of 46 tanks need something before the bell at 15:15."</summary>
    public string Answer => (Needing, HasBegun) switch
    {
        (0, _) => tanks.Count == 1 ? $"The tank is safe to leave {Till}." : $"All {tanks.Count} tanks are safe to leave {Till}.",
        (var n, true) => $"{Of(n)} somebody to look before {clock.When(most.Answer.Stretch.Until)}.",
        (var n, false) when IsToday => $"{Of(n)} something before the bell at {clock.Clock(most.Answer.Stretch.Bell)}{(oneBell ? "" : " (most schools)")}.",
        (var n, false) => $"{Of(n)} something before {clock.Weekday(most.Answer.Stretch.Bell)}'s bell, as it stands today.",
    };

    /// <summary>What the stretch is: "Closed from Wed 15:15 to Mon 08:00, 113 hours."</summary>
    public string Stretch
    {
        get
        {
            var s = most.Answer.Stretch;
            var hours = s.Hours.ToString("#,0", CultureInfo.InvariantCulture);
            var others = oneBell ? "" : "; other schools keep other hours, each row has its own";
            return s.Opens is null
                ? $"No school day is in sight after {clock.When(s.Bell)}: reckoned as {s.ClosedDays.Count} days without anybody."
                : $"Closed from {clock.When(s.Bell)} to {clock.When(s.Until)}, {hours} hours{others}.";
        }
    }

    public string Till => most.WordsAt(now).Till;

    /// <summary>Its own stretch, where a school keeps other hours than most; else empty.</summary>
    public string OwnStretch(LeftTank tank) => tank.Answer.Stretch.Bell == most.Answer.Stretch.Bell && tank.Answer.Stretch.Until == most.Answer.Stretch.Until
        ? ""
        : $"Closed from {clock.When(tank.Answer.Stretch.Bell)}, {tank.WordsAt(now).Till}.";

    private string Of(int needing) => tanks.Count == 1
        ? "The tank needs"
        : $"{needing} of {tanks.Count} tanks {(needing == 1 ? "needs" : "need")}";

    /// <summary>The programme's own number, this season and last week.</summary>
    public static string Of(NotKnownOfProgramme known)
    {
        var last = known.Weeks is [.., var week, _] ? $"; last week {Hours(week.Average)}" : "";
        return $"Nobody knew for {Hours(known.Average)} on average this season{last}.";
    }

    /// <summary>"19 hours", "2.5 hours"</summary>
    public static string Hours(double hours) => Math.Round(hours, hours < 9.95 ? 1 : 0) switch
    {
        1 => "1 hour",
        var rounded => $"{rounded.ToString("#,0.#", CultureInfo.InvariantCulture)} hours",
    };
}
