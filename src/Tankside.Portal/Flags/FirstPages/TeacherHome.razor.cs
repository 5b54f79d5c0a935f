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
        home = await Homes.TeacherAsync(User, CancellationToken.None) is { } now ? now with { Time = now.Time.To(Say), Scale = now.Scale.To(Say) } : null;
        due = home is null ? [] : [.. DueIn(home)];
        leaving = home is null ? [] : await Weekend.AskedAsync(User, CancellationToken.None);
    }

    private string Answer(TeacherHomeNow now)
    {
        var flagged = now.Tanks.Count(t => t.Flags.Count > 0);
        return (now.Tanks.Count, flagged) switch
        {
            (0, _) => Say["Your school has no open tank."],
            (var all, 0) when now.Tanks.All(t => t.Lot is null) => all == 1 ? Say["Your tank waits for eggs."] : Say["Your tanks wait for eggs."],
            (1, 0) => Say["Your tank is well."],
            (1, _) => Say["Your tank needs you."],
            (var all, 0) => Say.Of("Your {0} tanks are well.", all),
            (var all, _) => Say.Count(flagged, "{0} of your {1} tanks needs you.", "{0} of your {1} tanks need you.", all),
        };
    }

    private string LastRead(TeacherHomeNow now, TankGlance tank) => tank.LastAt is { } at
        ? tank.LastWaterC is { } c ? Say.Of("Last read {0}, water {1}.", now.Time.When(at), now.Scale.Both(c)) : Say.Of("Last read {0}.", now.Time.When(at))
        : Say["Nobody has read it yet."];

    private string LastRead(TankGlance tank) => LastRead(home!, tank);

    /// <summary>Hatch and swim-up whose interval touches the two weeks, and closures, in the order of their days.</summary>
    private IEnumerable<string> DueIn(TeacherHomeNow now)
    {
        var (today, last) = (now.Time.Today, now.Time.Today.AddDays(Homes.DaysAhead));
        var stages = now.Tanks.Where(t => t.Fish > 0).SelectMany(t => new[]
        {
            (Tank: t, IsHatch: true, On: t.Development is { Stage: LifeStage.Egg } d ? d.Hatch : null),
            (Tank: t, IsHatch: false, On: t.Development is { Stage: not LifeStage.Fry } f ? f.SwimUp : null),
        }).Where(s => s.On is { } on && on.Low80 <= last && on.High80 >= today)
            .Select(s => (Day: s.On!.Low80, Line: s.IsHatch
                ? Say.Of("Tank {0}: hatch {1}.", s.Tank.Code, now.Time.Ahead(s.On.Low80, s.On.High80))
                : Say.Of("Tank {0}: swim-up {1}. Have the first food ready; half must be swimming before you feed.", s.Tank.Code, now.Time.Ahead(s.On.Low80, s.On.High80))));
        var closed = now.Away.Select(c => (Day: c.First, Line: Say.Of("School closed ({0}): {1}. Name an adult who looks at the tank.", c.Reason, now.Time.Stretch(c.First, c.Last))));
        return stages.Concat(closed).OrderBy(l => l.Day).Select(l => l.Line);
    }
}
