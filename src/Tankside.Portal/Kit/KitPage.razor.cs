using System.Globalization;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.WebUtilities;
using Tankside.Hatchery.Kit;
using Tankside.Portal.Accounts;

namespace Tankside.Portal.Kit;

/// <summary>The register of the kit. Search and filters stand in the address, so that a list can be sent on.</summary>
public sealed partial class KitPage(KitRegister register, CarriedNotice notices)
{
    private KitList? list;
    private RegisterQuestion ask = new();

    [SupplyParameterFromQuery(Name = "search")]
    private string? Search { get; set; }

    [SupplyParameterFromQuery(Name = "kind")]
    private string? Kind { get; set; }

    [SupplyParameterFromQuery(Name = "condition")]
    private string? Condition { get; set; }

    [SupplyParameterFromQuery(Name = "place")]
    private string? Place { get; set; }

    [SupplyParameterFromQuery(Name = "page")]
    private string? Page { get; set; }

    [CascadingParameter]
    private HttpContext Http { get; set; } = null!;

    private Notice? Notice { get; set; }

    private bool Asked => ask.Kind is not null || ask.Condition is not null || ask.Place is not null || !string.IsNullOrWhiteSpace(Search);

    protected override async Task OnInitializedAsync()
    {
        Notice = notices.Take(Http);
        var page = int.TryParse(Page, CultureInfo.InvariantCulture, out var number) ? number : 1;
        ask = new RegisterQuestion(Named<KitKind>(Kind), Named<KitCondition>(Condition), Named<KitPlace>(Place), Search, page);
        list = await register.LoadAsync(CurrentUser.From(Http.User)!, ask, Http.RequestAborted);
    }

    private static TName? Named<TName>(string? text)
        where TName : struct, Enum =>
        Enum.TryParse<TName>(text, ignoreCase: true, out var name) && Enum.IsDefined(name) ? name : null;

    private static string Answer(KitList found) => (found.Faulty, found.InRepair) switch
    {
        _ when found.All == 0 => "No kit is entered yet.",
        (0, 0) => $"All {KitWords.Count(found.All, "piece works", "pieces work")}.",
        (var faulty, 0) => $"{KitWords.Count(faulty, "piece is", "pieces are")} faulty.",
        (0, var repair) => $"{KitWords.Count(repair, "piece is", "pieces are")} in repair.",
        var (faulty, repair) => $"{KitWords.Count(faulty, "piece is", "pieces are")} faulty, {repair} in repair.",
    };

    private static string Lead(KitList found) => found.All == 0
        ? ""
        : $"{KitWords.Count(found.All, "piece", "pieces")} in all, {found.SparesReady} ready as spares{(found.ToClean > 0 ? $", {found.ToClean} to be cleaned" : "")}.";

    private string PageAddress(int page) => QueryHelpers.AddQueryString("/kit", new Dictionary<string, string?>
    {
        ["search"] = string.IsNullOrWhiteSpace(Search) ? null : Search.Trim(),
        ["kind"] = ask.Kind?.ToString(),
        ["condition"] = ask.Condition?.ToString(),
        ["place"] = ask.Place?.ToString(),
        ["page"] = page.ToString(CultureInfo.InvariantCulture),
    });
}
