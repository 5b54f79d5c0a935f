using Microsoft.AspNetCore.Components;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Accounts;
using Tankside.Portal.Releases.Files;

namespace Tankside.Portal.Releases.Totals;

public sealed partial class TotalsPage(TotalsOfSeason seasons) : ComponentBase
{
    private const string Together = "Tanks whose fish were together for a holiday or for good stand in one row, because nobody can tell whose fish died or were released after that.";

    private SeasonTotals? totals;
    private IReadOnlyList<string> names = [];

    [SupplyParameterFromQuery]
    public string? Season { get; set; }

    [SupplyParameterFromQuery]
    public string? By { get; set; }

    private Grouping Apart => Enum.TryParse<Grouping>(By, ignoreCase: true, out var by) && Enum.IsDefined(by) ? by : Grouping.Lot;

    [CascadingParameter]
    private HttpContext Http { get; set; } = null!;

    /// <summary>Year on year and the researchers' file are for those who run the programme.</summary>
    private bool MayCompare => !CurrentUser.From(Http.User)!.Is(Hatchery.People.Role.AgencyContact);

    protected override async Task OnInitializedAsync()
    {
        var programme = CurrentUser.From(Http.User)!.ProgrammeId;
        Season = string.IsNullOrEmpty(Season) ? null : Season;
        totals = await seasons.LoadAsync(programme, Season, Http.RequestAborted);
        names = await seasons.NamesAsync(programme, Http.RequestAborted);
    }

    private static string Word(Grouping by) => by switch
    {
        Grouping.School => "school",
        Grouping.Lot => "lot",
        Grouping.Species => "species",
        Grouping.Site => "site",
        Grouping.Permit => "permit",
        Grouping.Tank => "tank",
    };

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
