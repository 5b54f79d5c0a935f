using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Authorization;
using Tankside.Hatchery.Readings.SetPoints;
using Tankside.Portal.Accounts;

namespace Tankside.Portal.Flags.Steering;

/// <summary>Every tank of a lot or a school with its plan; planned a few at a time, so that the page can say how far it is.</summary>
public sealed partial class PlansPage(PlanTanks plans)
{
    private const int AtOnce = 25;

    private List<PlannedTank> planned = [];
    private int all;
    private TimeWords? time;

    [SupplyParameterFromQuery(Name = "lot")]
    private string? Lot { get; set; }

    [SupplyParameterFromQuery(Name = "school")]
    private string? School { get; set; }

    [CascadingParameter]
    private Task<AuthenticationState> Signed { get; set; } = null!;

    private string Of => PlanWords.Of(Lot, School);

    private string Answer
    {
        get
        {
            var none = planned.Count(p => p.Answer is NoSetPoints);
            return all == 0 ? $"No tank with fish in {Of}."
                : (Turned, none) switch
                {
                    (0, 0) => $"No dial needs turning in {Of}.",
                    (var t, 0) => $"{CountWords.Count(t, "tank is", "tanks are")} better off with the dial turned.",
                    var (t, n) => $"{CountWords.Count(t, "tank is", "tanks are")} better off with the dial turned; for {n} no set-point helps.",
                };
        }
    }

    protected override async Task OnInitializedAsync()
    {
        if (CurrentUser.From((await Signed).User) is not { } user)
        {
            return;
        }

        var (at, tanks, kept) = await plans.LoadAsync(user, Lot, School, CancellationToken.None);
        all = tanks.Count;
        time = tanks.Count > 0 ? new TimeWords(tanks[0].Place.Calendar.Clock, at) : null;
        foreach (var some in tanks.Chunk(AtOnce))
        {
            // The planner only reckons; another thread leaves this one free to send how far it is.
            planned.AddRange(await Task.Run(() => some.Select(t => PlanTanks.Plan(t, kept.GetValueOrDefault(t.Place.Tank.Id), at)).ToList()));
            StateHasChanged();
        }
    }

    private int Turned => planned.Count(p => p.Answer is SetPointsFound { LeaveAlone: false });

    private int Unkept => planned.Count(PlanTanks.IsToKeep);

    private static (SetPointCourse Stay, SetPointCourse Best)? Courses(SetPointAnswer answer) => answer switch
    {
        SetPointsFound f => (f.Stay, f.Best),
        NoSetPoints n => (n.Stay, n.LeastBad),
        _ => null,
    };

    private static string Brief(PlannedStage? hatch, PlannedStage? swimUp) => string.Join(
        "; ", new[] { ("hatch", hatch), ("swim-up", swimUp) }.Where(s => s.Item2 is not null).Select(s => $"{s.Item1} {TimeWords.Brief(s.Item2!.Mid, s.Item2.Mid)}"));

    private static string Risk(SetPointCourse course) => string.Join(
        "; ",
        new[]
        {
            course.Hatch is null ? null : $"{PlanWords.Chance(course.HatchOnClosedDay)} on a closed day",
            course.SwimUp is null ? null : $"{PlanWords.Chance(course.SwimUpInBadTime)} too near a break",
        }.OfType<string>());
}
