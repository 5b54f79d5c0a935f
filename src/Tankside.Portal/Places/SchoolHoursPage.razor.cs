using System.Globalization;
using Microsoft.AspNetCore.Components;
using Tankside.Hatchery.Places;
using Tankside.Portal.Accounts;

namespace Tankside.Portal.Places;

public sealed partial class SchoolHoursPage(EditSchoolHours edit) : SheetPage<SchoolHoursForm>
{
    private School? school;

    [Parameter]
    public Guid SchoolId { get; set; }

    private CurrentUser Asking => CurrentUser.From(Http.User)!;

    protected override async Task OnInitializedAsync()
    {
        school = await edit.FindAsync(Asking, SchoolId, Http.RequestAborted);
        if (school is null)
        {
            Navigation.NotFound();
        }
        else if (!IsPost)
        {
            Input.OpensAt = school.OpensAt.ToString("HH:mm", CultureInfo.InvariantCulture);
            Input.ClosesAt = school.ClosesAt.ToString("HH:mm", CultureInfo.InvariantCulture);
            Input.Disinfectant = school.Disinfectant.ToString();
            Input.Version = school.Version;
        }
    }

    private async Task SaveAsync()
    {
        if (await edit.HandleAsync(Asking, SchoolId, Input, Refuse, Http.RequestAborted) is { } notice)
        {
            Leave("/season#notice", notice);
        }
    }
}
