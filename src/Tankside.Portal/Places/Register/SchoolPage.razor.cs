using Microsoft.AspNetCore.Components;
using Tankside.Portal.Accounts;

namespace Tankside.Portal.Places.Register;

public sealed partial class SchoolPage(SchoolRegister register, KeepSchool keep, TakeOut takeOut)
{
    private SchoolCard? card;
    private IReadOnlyList<string> areas = [];

    [Parameter]
    public Guid SchoolId { get; set; }

    private CurrentUser Asking => CurrentUser.From(Http.User)!;

    protected override async Task LoadAsync()
    {
        card = await register.FindAsync(Asking, SchoolId, Http.RequestAborted);
        if (card is null)
        {
            Navigation.NotFound();
            return;
        }

        areas = (await register.ListAsync(Asking, null, null, Http.RequestAborted)).Areas;
        if (!IsOf("school"))
        {
            Fill(SchoolForm.Of(card.School));
        }
    }

    private async Task SaveAsync()
    {
        if (await keep.ChangeAsync(Asking, SchoolId, Input, Refuse, Http.RequestAborted) is { } notice)
        {
            Leave($"/schools/{SchoolId}#notice", notice);
        }
    }

    private async Task TakeOutAsync()
    {
        var notice = await takeOut.SchoolAsync(Asking, SchoolId, Http.RequestAborted);
        Leave(notice.Good ? "/schools#notice" : $"/schools/{SchoolId}#notice", notice);
    }
}
