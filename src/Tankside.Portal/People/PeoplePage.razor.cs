using Microsoft.AspNetCore.Components;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Portal.Accounts.Mail;
using Tankside.Portal.Shell;

namespace Tankside.Portal.People;

public sealed partial class PeoplePage(
    ProgrammePeople people, IPlaceNames places, InvitePerson invite, WithdrawInvitation withdraw, RevokeKey revoke, TimeProvider time)
{
    private CurrentUser user = null!;
    private Programme programme = null!;
    private IReadOnlyList<Member> members = [];
    private Slice<Member> slice = Slice.Of<Member>([], null);
    private IReadOnlyList<(Member Member, string Why)> wanting = [];
    private IReadOnlyList<SentInvitation> invitations = [];
    private IReadOnlyList<ListedKey> keys = [];
    private IReadOnlyList<SchoolChoice> schools = [];

    [SupplyParameterFromQuery(Name = "page")]
    private string? Page { get; set; }

    [SupplyParameterFromForm(FormName = "withdraw")]
    public Guid? Invitation { get; set; }

    [SupplyParameterFromForm(FormName = "revoke")]
    public Guid? Key { get; set; }

    private string Answer => members.Count == 1
        ? $"You are the only one in {programme.Name}."
        : $"{members.Count} people are in {programme.Name}.";

    private string Lead => invitations.Count(i => i.ExpiresAt > Now) switch
    {
        0 => "No invitation waits for an answer.",
        1 => "One invitation waits for an answer.",
        var many => $"{many} invitations wait for an answer.",
    };

    private DateTime Now => time.GetUtcNow().UtcDateTime;

    protected override async Task LoadAsync()
    {
        user = CurrentUser.From(Http.User)!;
        var cancel = Http.RequestAborted;
        programme = await people.ProgrammeAsync(user, cancel);
        members = await people.MembersAsync(user, cancel);
        slice = Slice.Of(members, Page);
        var today = ProgrammeClock.Of(programme.TimeZone).Day(Now);
        wanting = [.. members.Select(m => (m, SetCheck.Wants(m, today))).Where(m => m.Item2 is not null).Select(m => (m.m, m.Item2!))];
        invitations = await people.InvitationsAsync(user, cancel);
        keys = await people.KeysAsync(user, cancel);
        schools = await places.SchoolsAsync(user.ProgrammeId, cancel);
    }

    private async Task InviteAsync()
    {
        switch (await invite.HandleAsync(user, Input.Email!.Trim(), Input.Wanted, Http.RequestAborted))
        {
            case InviteOutcome.Invited invited:
                Leave("/people#notice", Told(Input.Email!.Trim(), invited));
                break;
            case InviteOutcome.Refused refused:
                Refuse(refused.Field, refused.Why);
                break;
        }
    }

    private static Notice Told(string email, InviteOutcome.Invited invited) => invited.Mail switch
    {
        MailOutcome.Sent => new Notice(true, $"The invitation to {email} is mailed. You can also hand on the link yourself.", invited.Link.ToString()),
        MailOutcome.KeptAsFile => new Notice(true, $"The invitation to {email} is made. This installation sends no mail, so please hand on the link yourself.", invited.Link.ToString()),
        MailOutcome.Unsure => new Notice(false, $"The invitation to {email} is made, but nobody can say whether the mail went. Please hand on the link yourself.", invited.Link.ToString()),
        MailOutcome.Bounced => new Notice(false, $"The invitation to {email} is made, but the mail server refused that address for good. Please look at the address, or hand on the link yourself.", invited.Link.ToString()),
        MailOutcome.Failed => new Notice(false, $"The invitation to {email} is made, but the mail could not be sent. Please hand on the link yourself.", invited.Link.ToString()),
    };

    private async Task WithdrawAsync() => Leave("/people#notice", await withdraw.HandleAsync(user, Invitation ?? Guid.Empty, Http.RequestAborted));

    private async Task RevokeAsync() => Leave("/people#notice", await revoke.HandleAsync(user, Key ?? Guid.Empty, Http.RequestAborted));

    private string StepOf(Member member) => (member.TwoSteps, member.HasPasskey) switch
    {
        (true, true) => "code and passkey",
        (true, false) => "code",
        (false, true) => "passkey",
        (false, false) => programme.DemandsStepOf(member.Role) ? "not yet; asked at sign-in" : "none",
    };

    private string Until(SentInvitation sent) => sent.ExpiresAt > Now
        ? LocalTimes.Day(programme, sent.ExpiresAt)
        : $"ran out on {LocalTimes.Day(programme, sent.ExpiresAt)}";
}
