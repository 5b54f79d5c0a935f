using Microsoft.AspNetCore.Components;
using Tankside.Hatchery.Places;
using Tankside.Portal.Accounts;

namespace Tankside.Portal.Places;

public sealed partial class ClosuresPage(EditClosures edit) : SheetPage<ClosureForm>
{
    private IReadOnlyList<ListedClosure> closures = [];
    private IReadOnlyList<School> schools = [];

    /// <summary>The closure that is to be removed.</summary>
    [SupplyParameterFromForm(FormName = "remove")]
    public Guid? Removed { get; set; }

    private CurrentUser Asking => CurrentUser.From(Http.User)!;

    private string Answer => (closures.Count(c => c.School is null), closures.Count(c => c.School is not null)) switch
    {
        (0, 0) => "Every weekday is a school day: no closure is entered.",
        (var all, 0) => $"{all} {(all == 1 ? "closure" : "closures")} for all schools.",
        var (all, some) => $"{all} {(all == 1 ? "closure" : "closures")} for all schools, {some} for single ones.",
    };

    protected override async Task OnInitializedAsync()
    {
        closures = await edit.ListAsync(Asking.ProgrammeId, Http.RequestAborted);
        schools = await edit.SchoolsAsync(Asking.ProgrammeId, Http.RequestAborted);
        Input.Id = Input.Id == Guid.Empty ? Guid.NewGuid() : Input.Id;
    }

    private async Task AddAsync()
    {
        if (await edit.AddAsync(Asking, Input, Refuse, Http.RequestAborted) is { } notice)
        {
            Leave("/season/closures#notice", notice);
        }
    }

    private async Task RemoveAsync() => Leave("/season/closures#notice", await edit.RemoveAsync(Asking, Removed ?? Guid.Empty, Http.RequestAborted));
}
