using Tankside.Portal.Releases;
using Tankside.Portal.Releases.Due;

namespace Tankside.Portal.Digests;

/// <summary>What a reminder says. It names tanks and schools, never a person.</summary>
internal static class ReminderTexts
{
    /// <param name="reports">Of one permit, due on one day.</param>
    public static (string Subject, string Text) Of(IReadOnlyList<DueReport> reports, DateOnly today, string programme, Uri portal)
    {
        var (number, due) = (reports[0].Permit.Number, SeasonAtHand.Day(reports[0].DueOn));
        var what = reports[0].IsNil ? "The nil report" : reports.Count == 1 ? "The release report" : $"{Figures.Of(reports.Count)} release reports";
        var verb = reports.Count == 1 ? "is" : "are";
        var left = reports[0].DaysLeft(today);
        var when = left switch
        {
            < 0 => $"{verb} {Figures.Of(-left, "day", "days")} late",
            0 => $"{verb} due today",
            _ => $"{verb} due in {Figures.Of(left, "day", "days")}",
        };
        var subject = $"{what} of permit {number} {when}";
        return (subject, string.Join('\n', [
            $"{subject} ({due}).",
            "",
            .. reports.Select(r => r.IsNil
                ? "Nothing was released on it. That has to be reported too: blank is not 0."
                : $"{r.Tank}, {r.School}: {Figures.Of(r.Fish)} fish at {r.Site} on {SeasonAtHand.Day(r.ReleasedOn!.Value)}"),
            "",
            $"When it is sent, say so here: {new Uri(portal, "releases/due")}",
            "",
            $"{programme}, by Tankside",
        ]));
    }
}
