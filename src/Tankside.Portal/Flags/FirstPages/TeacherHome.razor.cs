using Microsoft.AspNetCore.Components;
using Tankside.Hatchery.Eggs;
using Tankside.Portal.Accounts;
using Tankside.Portal.Flags.Leaving;

namespace Tankside.Portal.Flags.FirstPages;

/// <summary>A teacher's first page.</summary>
public partial class TeacherHome
{
    private TeacherHomeNow? home;
    private List<string> due = [];
    private IReadOnlyList<LeftTank> leaving = [];

    [Parameter, EditorRequired]
    public CurrentUser User { get; set; } = null!;

    [Inject]
    private Homes Homes { get; set; } = null!;

    [Inject]
    private Weekend Weekend { get; set; } = null!;

    protected override async Task OnInitializedAsync()
    {
        home = await Homes.TeacherAsync(User, CancellationToken.None);
        due = home is null ? [] : [.. DueIn(home)];
        leaving = home is null ? [] : await Weekend.AskedAsync(User, CancellationToken.None);
    }

    private static string Answer(TeacherHomeNow now)
    {
        var flagged = now.Tanks.Count(t => t.Flags.Count > 0);
        return (now.Tanks.Count, flagged) switch
        {
            (0, _) => "Your school has no open tank.",
            (var all, 0) when now.Tanks.All(t => t.Lot is null) => $"Your {(all == 1 ? "tank waits" : "tanks wait")} for eggs.",
            (1, 0) => "Your tank is well.",
            (1, _) => "Your tank needs you.",
            (var all, 0) => $"Your {all} tanks are well.",
            (var all, _) => $"{flagged} of your {all} tanks {(flagged == 1 ? "needs" : "need")} you.",
        };
    }

    private static string LastRead(TeacherHomeNow now, TankGlance tank) => tank.LastAt is { } at
        ? $"Last read {now.Time.When(at)}{(tank.LastWaterC is { } c ? $", water {now.Scale.Both(c)}" : "")}."
        : "Nobody has read it yet.";

    private string LastRead(TankGlance tank) => LastRead(home!, tank);

    /// <summary>Hatch and swim-up whose interval touches the two weeks, and closures, in the order of their days.</summary>
    private static IEnumerable<string> DueIn(TeacherHomeNow now)
    {
        var (today, last) = (now.Time.Today, now.Time.Today.AddDays(Homes.DaysAhead));
        var stages = now.Tanks.Where(t => t.Fish > 0).SelectMany(t => new[]
        {
            (Tank: t, Name: "hatch", On: t.Development is { Stage: LifeStage.Egg } d ? d.Hatch : null),
            (Tank: t, Name: "swim-up", On: t.Development is { Stage: not LifeStage.Fry } f ? f.SwimUp : null),
        }).Where(s => s.On is { } on && on.Low80 <= last && on.High80 >= today)
            .Select(s => (Day: s.On!.Low80, Line: $"Tank {s.Tank.Code}: {s.Name} {now.Time.Ahead(s.On.Low80, s.On.High80)}."
                + (s.Name == "swim-up" ? " Have the first food ready; half must be swimming before you feed." : "")));
        var closed = now.Away.Select(c => (Day: c.First, Line: $"School closed ({c.Reason}): {now.Time.Stretch(c.First, c.Last)}. Name an adult who looks at the tank."));
        return stages.Concat(closed).OrderBy(l => l.Day).Select(l => l.Line);
    }
}
