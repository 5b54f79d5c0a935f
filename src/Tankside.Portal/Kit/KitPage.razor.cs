using System.Globalization;
using Microsoft.AspNetCore.Components;
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

    private string Answer(KitList found) => (found.Faulty, found.InRepair) switch
    {
        _ when found.All == 0 => Say["No kit is entered yet."],
        (0, 0) => Say.Count(found.All, "All {0} piece works.", "All {0} pieces work."),
        (var faulty, 0) => Say.Count(faulty, "{0} piece is faulty.", "{0} pieces are faulty."),
        (0, var repair) => Say.Count(repair, "{0} piece is in repair.", "{0} pieces are in repair."),
        var (faulty, repair) => Say.Count(faulty, "{0} piece is faulty, {1} in repair.", "{0} pieces are faulty, {1} in repair.", repair),
    };

    private string Lead(KitList found) => found.All == 0
        ? ""
        : Say.Count(found.All, "{0} piece in all, {1} ready as spares", "{0} pieces in all, {1} ready as spares", found.SparesReady) + (found.ToClean > 0 ? Say.Of(", {0} to be cleaned", found.ToClean) : "") + ".";
}
