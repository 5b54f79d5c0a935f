using Microsoft.AspNetCore.Components;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Storage.People;

namespace Tankside.Portal.People;

/// <summary>Everybody's own page: how they are called, and when mails may come.</summary>
public sealed partial class MyPage(EditMe edit) : SheetPage<MyForm>
{
    private CurrentUser user = null!;
    private Person person = null!;
    private Programme programme = null!;

    [SupplyParameterFromForm(FormName = "hour")]
    public string? DigestHour { get; set; }

    private bool IsLead => user.Is(Role.ProgrammeLead);

    private bool WorksTheRound => user.Is(Role.Coordinator, Role.ProgrammeLead);

    private string Hour => EditMe.Text(programme.DigestAt)!;

    private string Answer => (WorksTheRound && person.WantsDigest, QuietHours.Of(person.QuietFrom, person.QuietTo)) switch
    {
        (true, { } quiet) when programme.DigestAt.IsBetween(quiet.From, quiet.To) =>
            $"Your morning mail is due at {Hour} and comes at {EditMe.Text(quiet.To)}, when your quiet hours from {EditMe.Text(quiet.From)} are over.",
        (true, null) => $"Your morning mail comes at {Hour}.",
        (true, var quiet) => $"Your morning mail comes at {Hour}; no mail from {EditMe.Text(quiet.From)} to {EditMe.Text(quiet.To)}.",
        (false, null) => $"{person.Name}, this is what Tankside knows of you.",
        (false, var quiet) => $"No mail comes from {EditMe.Text(quiet.From)} to {EditMe.Text(quiet.To)}.",
    };

    protected override async Task LoadAsync()
    {
        user = CurrentUser.From(Http.User)!;
        (person, programme) = await edit.LoadAsync(user, Http.RequestAborted);
        if (!IsPost)
        {
            var mine = MyForm.Of(person);
            (Input.Name, Input.Phone, Input.Language, Input.WantsDigest, Input.WantsUrgent, Input.QuietFrom, Input.QuietTo) =
                (mine.Name, mine.Phone, mine.Language, mine.WantsDigest, mine.WantsUrgent, mine.QuietFrom, mine.QuietTo);
            (Input.WantsAnnouncements, Input.WantsReminders) = (mine.WantsAnnouncements, mine.WantsReminders);
        }
    }

    private async Task SaveAsync()
    {
        if (await edit.SaveAsync(user, Input, Refuse, Http.RequestAborted) is { } notice)
        {
            Leave("/me#notice", notice);
        }
    }

    private async Task SetHourAsync()
    {
        if (IsLead)
        {
            Leave("/me#notice", await edit.SetHourAsync(user, DigestHour, Http.RequestAborted));
        }
    }
}
