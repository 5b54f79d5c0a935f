using Microsoft.AspNetCore.Components;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Accounts;
using Tankside.Portal.Releases.Files;

namespace Tankside.Portal.Releases.Totals;

public sealed partial class TotalsPage(TotalsOfSeason seasons) : ComponentBase
{
    private SeasonTotals? totals;
    private IReadOnlyList<string> names = [];

    [SupplyParameterFromQuery]
    public string? Season { get; set; }

    [CascadingParameter]
    private HttpContext Http { get; set; } = null!;

    protected override async Task OnInitializedAsync()
    {
        var programme = CurrentUser.From(Http.User)!.ProgrammeId;
        Season = string.IsNullOrEmpty(Season) ? null : Season;
        totals = await seasons.LoadAsync(programme, Season, Http.RequestAborted);
        names = await seasons.NamesAsync(programme, Http.RequestAborted);
    }

    private static string Download(SeasonTotals totals, TotalsFile kind) => $"/totals/{Uri.EscapeDataString(totals.Season)}{kind.Ending}";

    private static string Answer(SeasonTotals totals)
    {
        var (finished, supplied) = (totals.Pooled.Finished, totals.Pooled.Supplied);
        var released = totals.Sum.Released;
        return supplied == 0
            ? "No eggs have come yet."
            : $"{Figures.Of(released)} fish {(released == 1 ? "is" : "are")} released; {Figures.Of(finished)} of {Figures.Of(supplied, "tank has", "tanks have")} finished.";
    }
}
