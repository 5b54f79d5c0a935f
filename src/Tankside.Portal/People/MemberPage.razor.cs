using Microsoft.AspNetCore.Components;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;

namespace Tankside.Portal.People;

public sealed partial class MemberPage(ProgrammePeople people, IPlaceNames places, ChangeRole change, RemoveMember remove, ErasePerson erase, HelpIn help, SetCheck check)
{
    private CurrentUser user = null!;
    private Member? member;
    private Programme programme = null!;
    private IReadOnlyList<SchoolChoice> schools = [];

    [Parameter]
    public Guid MembershipId { get; set; }

    /// <summary>The mail address typed to say that they are to be erased.</summary>
    [SupplyParameterFromForm(FormName = "erase")]
    public string? Confirm { get; set; }

    [SupplyParameterFromForm(FormName = "check")]
    public string? CheckKind { get; set; }

    [SupplyParameterFromForm(FormName = "check")]
    public string? CheckUntil { get; set; }

    private string? eraseRefused, checkRefused;

    private bool IsMe => member?.PersonId == user.PersonId;

    protected override async Task LoadAsync()
    {
        user = CurrentUser.From(Http.User)!;
        member = await people.MemberAsync(user, MembershipId, Http.RequestAborted);
        if (member is null)
        {
            Http.Response.StatusCode = StatusCodes.Status404NotFound;
            return;
        }

        programme = await people.ProgrammeAsync(user, Http.RequestAborted);
        schools = await places.SchoolsAsync(user.ProgrammeId, Http.RequestAborted);
        if (!IsPost)
        {
            (Input.Role, Input.School) = (member.Role, member.SchoolId?.ToString());
        }
    }

    private async Task ChangeAsync() => Tell(
        await change.HandleAsync(user, MembershipId, Input.Wanted, Http.RequestAborted),
        $"/people/{MembershipId}", name => $"{name} has the role that you chose: {Input.Role.Word()}.");

    private async Task RemoveAsync() => Tell(
        await remove.HandleAsync(user, MembershipId, Http.RequestAborted), "/people", name => $"{name} is not in the programme any more.");

    private async Task EraseAsync()
    {
        if (await erase.EraseMemberAsync(user, MembershipId, new EraseForm { Confirm = Confirm }, (_, why) => eraseRefused = why, Http.RequestAborted) is { } notice)
        {
            Leave("/people", notice);
        }
    }

    private async Task KeepCheckAsync()
    {
        var form = new CheckForm { Kind = CheckKind, Until = CheckUntil };
        if (await check.HandleAsync(user, MembershipId, form, why => checkRefused = why, Http.RequestAborted) is { } notice)
        {
            Leave($"/people/{MembershipId}#notice", notice);
        }
    }

    private async Task HandLinkAsync() => Tell(
        await help.HandLinkAsync(user, MembershipId, Http.RequestAborted), $"A link for {member!.Name} to choose a new password.");

    private async Task SwitchOffStepAsync() => Tell(
        await help.SwitchOffStepAsync(user, MembershipId, Http.RequestAborted), $"The second step of {member!.Name} is off. {(programme.DemandsStepOf(member.Role) ? "With their password they set up a new one." : "Their password is enough until they switch it on again.")}");

    private async Task EndSessionsAsync() => Tell(
        await help.EndSessionsAsync(user, MembershipId, Http.RequestAborted), $"{member!.Name} is signed out everywhere within a minute.");

    private void Tell(HelpOutcome outcome, string done)
    {
        switch (outcome)
        {
            case HelpOutcome.Done(var link):
                Leave($"/people/{MembershipId}#notice", new Notice(true, done, link?.ToString()));
                break;
            case HelpOutcome.Refused(var why):
                Leave($"/people/{MembershipId}#notice", new Notice(false, why));
                break;
            case HelpOutcome.NotFound:
                member = null;
                break;
        }
    }

    private void Tell(MemberOutcome outcome, string next, Func<string, string> done)
    {
        switch (outcome)
        {
            case MemberOutcome.Done(var name):
                Leave(next, new Notice(true, done(name)));
                break;
            case MemberOutcome.Refused(var field, var why):
                Refuse(field, why);
                break;
            case MemberOutcome.NotFound:
                member = null;
                break;
        }
    }
}
