using Microsoft.AspNetCore.Components;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Accounts;

namespace Tankside.Portal.Releases.Totals;

public sealed partial class TotalsPage(TotalsOfSeason seasons) : ComponentBase
{
    private SeasonTotals? totals;
    private IReadOnlyList<string> names = [];

    [SupplyParameterFromQuery]
    public string? Season { get; set; }

    [CascadingParameter]
    private HttpContext Http { get; set; } = null!;

    /// <summary>Over the whole programme a move is neither a way in nor an end.</summary>
    private TankBalance Across
    {
        get
        {
            var sum = totals!.Sum;
            var within = Math.Min(sum.TransferredIn, sum.TransferredOut);
            return sum with { TransferredIn = sum.TransferredIn - within, TransferredOut = sum.TransferredOut - within };
        }
    }

    protected override async Task OnInitializedAsync()
    {
        var programme = CurrentUser.From(Http.User)!.ProgrammeId;
        Season = string.IsNullOrEmpty(Season) ? null : Season;
        totals = await seasons.LoadAsync(programme, Season, Http.RequestAborted);
        names = await seasons.NamesAsync(programme, Http.RequestAborted);
    }

    private static string Answer(SeasonTotals totals)
    {
        var (finished, supplied) = (totals.Pooled.Finished, totals.Pooled.Supplied);
        var released = totals.Sum.Released;
        return supplied == 0
            ? "No eggs have come yet."
            : $"{Figures.Of(released)} fish {(released == 1 ? "is" : "are")} released; {Figures.Of(finished)} of {Figures.Of(supplied, "tank has", "tanks have")} finished.";
    }
}
