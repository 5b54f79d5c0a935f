using System.Globalization;
using Microsoft.AspNetCore.Components;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Readings.SetPoints;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell.Charts;

namespace Tankside.Portal.Flags.Steering;

public sealed class KeepForm
{
    /// <summary>The steps that were on the screen.</summary>
    public string? Steps { get; set; }

    /// <summary>Where the dial was found, as typed.</summary>
    public string? Dial { get; set; }
}

/// <summary>The set-point plan of one tank: asked in the address, kept by a form.</summary>
public sealed partial class PlanPage(PlanTank plans) : SheetPage<KeepForm>
{
    private TankToSteer? tank;
    private PlanQuery query = null!;
    private SetPointAnswer? answer;

    [Parameter]
    public string Code { get; set; } = "";

    [SupplyParameterFromQuery(Name = "goal")]
    public string? GoalText { get; set; }

    [SupplyParameterFromQuery(Name = "day")]
    public string? DayText { get; set; }

    [SupplyParameterFromQuery(Name = "release")]
    public string? ReleaseText { get; set; }

    private CurrentUser Asking => CurrentUser.From(Http.User)!;

    private string Self => $"/tanks/{tank!.Glance.Code}/plan";

    private string Asked => $"{Self}?goal={PlanQuery.WordOf(query.Goal)}&day={Iso(query.Day)}&release={Iso(query.Release)}";

    private (SetPointCourse Stay, SetPointCourse Best, Reach Reach)? Courses => answer switch
    {
        SetPointsFound f => (f.Stay, f.Best, f.Reach),
        NoSetPoints n => (n.Stay, n.LeastBad, n.Reach),
        _ => null,
    };

    protected override async Task LoadAsync()
    {
        tank = await plans.LoadAsync(Code, Asking, Http.RequestAborted);
        if (tank is null)
        {
            Navigation.NotFound();
            return;
        }

        tank = tank.To(Say);
        query = PlanQuery.Read(GoalText, DayText, ReleaseText, tank.Time.Today);
        if (query.Wrong is null && tank.Glance is { Development: { } development, Fish: > 0 } glance)
        {
            answer = SteeredTank.Ask(glance.Place, development, glance.Days, tank.At, query.Goal, query.Day, query.Release);
        }
    }

    private async Task KeepAsync()
    {
        if (Courses is not { } courses || StoredSteps.Write(courses.Best.Steps) != Input.Steps)
        {
            Leave(Asked + "#notice", new Notice(false, Say["Readings have come since this plan was shown, and it has changed. Nothing was kept; please look at the new one."]));
            return;
        }

        var kept = await plans.KeepAsync(tank!.Glance, tank.At, Asking, query.Goal, query.Day, courses.Best, Http.RequestAborted);
        Leave(Self + "#notice", kept
            ? new Notice(true, Say["The plan is kept. The tank's page says each day where the dial should stand."])
            : new Notice(false, Say["Somebody else kept a plan for this tank meanwhile. Yours was not kept; please look at theirs first."]));
    }

    private async Task EndAsync() => Leave(Self + "#notice", await plans.EndAsync(tank!, Asking, Http.RequestAborted)
        ? new Notice(true, Say["The plan has ended. The dial stays where it stands."])
        : new Notice(false, Say["This plan had ended already, or changed meanwhile. Nothing was changed."]));

    private async Task SetDialAsync()
    {
        var (celsius, wrong) = DialRead.From(Input.Dial, tank!.Glance.Place.Programme.ScreenUnit, Say);
        if (celsius is not { } c)
        {
            Refuse(nameof(Input.Dial), wrong!);
            return;
        }

        var ended = tank.Kept is null ? "" : " " + Say["The plan that was kept has ended."];
        var set = await plans.SetDialAsync(tank, Asking, c, Http.RequestAborted);
        Leave(Self + "#notice", set
            ? new Notice(true, Say.Of("The set-point of {0} is {1} now.", tank.Glance.Code, tank.Scale.Both(c)) + ended)
            : new Notice(false, Say["Somebody else changed this tank meanwhile. The set-point was not changed; please look first."]));
    }

    private static string Iso(DateOnly? day) => day?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) ?? "";

    private string Headline => query.Wrong is { } ? Say["Nothing was planned."]
        : answer is { } said ? PlanWords.Answer(said, tank!.Scale, query.Goal, query.Day, tank.Time)
        : tank!.Glance.Lot is null ? Say["No eggs have come to this tank yet."] : Say["No fish are left in this tank, by its ledger."];

    /// <summary>The corners of the planned line, from today to the late end of swim-up.</summary>
    private static List<TemperaturePoint> Planned(SetPointCourse course)
    {
        var corners = new List<TemperaturePoint>();
        foreach (var step in course.Steps)
        {
            if (corners.Count > 0)
            {
                corners.Add(new TemperaturePoint(step.On.ToDateTime(default), corners[^1].C));
            }

            corners.Add(new TemperaturePoint(step.On.ToDateTime(default), step.C));
        }

        var end = course.SwimUp?.Mid ?? course.Hatch?.Mid ?? course.Steps[^1].On.AddDays(7);
        corners.Add(new TemperaturePoint((end > course.Steps[^1].On ? end : course.Steps[^1].On.AddDays(1)).ToDateTime(default), course.FinalC));
        return corners;
    }

    private List<ClosedDays> Closed(SetPointCourse course) =>
        [.. tank!.Glance.Place.Calendar.ClosedRuns(tank.Time.Today.AddDays(-31), (course.SwimUp?.Mid ?? course.Hatch?.Mid ?? tank.Time.Today).AddDays(1)).Select(r => new ClosedDays(r.First, r.Last))];

    private SafeBand Safe => new(tank!.Glance.Place.Limits[Limits.SetPoints.Low], tank.Glance.Place.Limits[Limits.SetPoints.High]);
}
