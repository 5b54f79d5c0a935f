using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Portal.Accounts.Mail;
using Tankside.Storage;

namespace Tankside.Portal.People;

/// <summary>
/// Many invitations at once, for whoever saves them together. Their mails go by the outbox afterwards; the link that each carries is made in
/// the moment it goes (<see cref="InvitationWords"/>), so that no secret waits in the database.
/// </summary>
public sealed class InvitationsByMail(Outbox outbox)
{
    internal const string KeyStart = "invitation ";

    public Invitation New(CurrentUser user, string email, string name, RoleAtSchool wanted, DateTime now) => new()
    {
        Id = Guid.CreateVersion7(),
        ProgrammeId = user.ProgrammeId,
        Email = email,
        Name = name,
        Role = wanted.Role,
        SchoolId = wanted.SchoolId,
        SecretHash = Secrets.Hash(Secrets.New()), // Nobody has this one's secret.
        InvitedAt = now,
        InvitedBy = user.PersonId,
        ExpiresAt = now + Invitation.Lifetime,
    };

    /// <summary>Adds the invitation and its letter to the caller's context; the caller saves and then calls <see cref="Wake"/>.</summary>
    public void Add(HatcheryDb db, Invitation invitation, string programme)
    {
        db.Add(invitation);
        outbox.Add(db, new NewLetter(
            $"{KeyStart}{invitation.Id}", invitation.ProgrammeId, null, invitation.Email, $"Your invitation to {programme}", "The words of this letter are made when it goes."));
    }

    public void Wake() => outbox.Wake();
}
