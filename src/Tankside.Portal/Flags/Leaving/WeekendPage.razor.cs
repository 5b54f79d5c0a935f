using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Authorization;
using Tankside.Hatchery.Flags;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell;
using Tankside.Portal.Shell.Charts;

namespace Tankside.Portal.Flags.Leaving;

/// <summary>Safe to leave? All the tanks somebody sees, the ones that need something first; also the sheet to print on a Friday.</summary>
public partial class WeekendPage
{
    private WeekendNow? weekend;
    private WeekendWords? words;
    private List<LeftTank> needing = [], safe = [];
    private List<HoursOfWeek> weeks = [];
    private double tanksLimit;
    private Slice<LeftTank> slice = Slice.Of<LeftTank>([], null);

    [SupplyParameterFromQuery(Name = "page")]
    private string? Page { get; set; }

    [CascadingParameter]
    private Task<AuthenticationState> Signed { get; set; } = null!;

    [Inject]
    private Weekend Tanks { get; set; } = null!;

    protected override async Task OnInitializedAsync()
    {
        if (CurrentUser.From((await Signed).User) is not { } user)
        {
            return;
        }

        weekend = await Tanks.LoadAsync(user, CancellationToken.None);
        if (weekend.Tanks.Count > 0)
        {
            words = new WeekendWords(weekend.Tanks, weekend.At, Say);
            tanksLimit = weekend.Tanks[0].Record.Limits[Limits.Leaving.Safe];
        }

        needing = [.. weekend.Tanks.Where(t => t.NeedsSomething)];
        safe = [.. weekend.Tanks.Where(t => !t.NeedsSomething)];
        slice = Slice.Of(safe, Page);
        weeks = [.. weekend.NotKnown?.Weeks.Select(w => new HoursOfWeek(w.Monday, w.Average, w.Tanks)) ?? []];
    }
}
