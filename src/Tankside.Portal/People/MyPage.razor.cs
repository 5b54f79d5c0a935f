using Microsoft.AspNetCore.Components;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Storage.People;

namespace Tankside.Portal.People;

/// <summary>Everybody's own page: how they are called, and when mails may come.</summary>
public sealed partial class MyPage(EditMe edit, HouseSignIn signIn) : SheetPage<MyForm>
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
            Say.Of("Your morning mail is due at {0} and comes at {1}, when your quiet hours from {2} are over.", Hour, EditMe.Text(quiet.To), EditMe.Text(quiet.From)),
        (true, null) => Say.Of("Your morning mail comes at {0}.", Hour),
        (true, var quiet) => Say.Of("Your morning mail comes at {0}; no mail from {1} to {2}.", Hour, EditMe.Text(quiet.From), EditMe.Text(quiet.To)),
        (false, null) => Say.Of("{0}, this is what Tankside knows of you.", person.Name),
        (false, var quiet) => Say.Of("No mail comes from {0} to {1}.", EditMe.Text(quiet.From), EditMe.Text(quiet.To)),
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
            // The session knows the language too: the page that follows is already in the new one.
            await signIn.RefreshAsync(user.PersonId);
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
