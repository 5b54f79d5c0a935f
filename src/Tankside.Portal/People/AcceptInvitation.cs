using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell;
using Tankside.Storage;
using Tankside.Storage.People;

namespace Tankside.Portal.People;

public enum InvitationState
{
    Open,
    Unknown,
    Used,
    Withdrawn,
    RanOut,
}

/// <summary>An invitation as the invited person sees it.</summary>
/// <param name="HasAccount">True when the address has an account already, so that only its password is asked.</param>
public sealed record InvitationView(InvitationState State, string Programme, string Place, string Email, string Until, bool HasAccount)
{
    /// <summary>The adult's name, where whoever invited them gave it.</summary>
    public string? Name { get; init; }

    public static InvitationView Unknown { get; } = new(InvitationState.Unknown, "", "", "", "", false);
}

/// <summary>Lets an invited person in, once.</summary>
public sealed class AcceptInvitation(
    HatcheryDb db, UserManager<Person> people, HouseSignIn signIn, IPlaceNames places, ProgrammeInHand inHand, WhoActs who, TimeProvider time, Say say)
{
    public const string NameField = "Name", PasswordField = nameof(NewPassword.Password);

    private DateTime Now => Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);

    public async Task<InvitationView> LookAsync(string secret, CancellationToken cancel)
    {
        // Not tracked: the later look, when the form is sent, must see the row as it is then.
        if (await Invitations(secret).AsNoTracking().SingleOrDefaultAsync(cancel) is not { } invitation)
        {
            return InvitationView.Unknown;
        }

        var programme = await db.Programmes.SingleAsync(p => p.Id == invitation.ProgrammeId, cancel);
        return new InvitationView(
            StateOf(invitation),
            programme.Name,
            RoleAtSchool.Words(invitation.Role, invitation.SchoolId, await places.SchoolsAsync(programme.Id, cancel), say),
            invitation.Email,
            LocalTimes.Moment(programme, invitation.ExpiresAt, say),
            await people.FindByEmailAsync(invitation.Email) is not null)
        {
            Name = invitation.Name,
        };
    }

    /// <summary>The person, ready to be signed in; null when it was refused, or when the invitation is not open any more.</summary>
    public async Task<Person?> HandleAsync(string secret, string? name, string password, Action<string, string> refuse, CancellationToken cancel)
    {
        try
        {
            return await JoinAsync(secret, name, password, refuse, cancel);
        }
        catch (DbUpdateException e) when (e is DbUpdateConcurrencyException || e.IsUniqueViolation())
        {
            // The same link was sent twice at once, or withdrawn meanwhile. What the other one did stands; looking again tells.
            db.ChangeTracker.Clear();
            return null;
        }
    }

    private async Task<Person?> JoinAsync(string secret, string? name, string password, Action<string, string> refuse, CancellationToken cancel)
    {
        await using var turn = await db.Database.BeginTransactionAsync(cancel);
        if (await Invitations(secret).SingleOrDefaultAsync(cancel) is not { } invitation || StateOf(invitation) != InvitationState.Open)
        {
            return null;
        }

        var person = await people.FindByEmailAsync(invitation.Email) is { } known
            ? await RecognisedAsync(known, invitation, password, refuse)
            : await NewPersonAsync(invitation.Email, name, password, refuse);
        if (person is null)
        {
            // A wrong password counts towards the lock-out, so what is written so far stays.
            await turn.CommitAsync(cancel);
            return null;
        }

        who.Is(person.Id);
        db.Add(new Membership
        {
            Id = Guid.CreateVersion7(),
            PersonId = person.Id,
            ProgrammeId = invitation.ProgrammeId,
            Role = invitation.Role,
            SchoolId = invitation.SchoolId,
        });
        invitation.AcceptedAt = Now;
        // Whoever is in another programme too comes in where they were invited.
        person.WorksIn = invitation.ProgrammeId;
        inHand.Take(person.Id, invitation.ProgrammeId);
        await db.SaveChangesAsync(cancel);
        await turn.CommitAsync(cancel);
        return person;
    }

    private async Task<Person?> NewPersonAsync(string email, string? name, string password, Action<string, string> refuse)
    {
        if (string.IsNullOrWhiteSpace(name))
        {
            refuse(NameField, "Type your name.");
            return null;
        }

        var person = new Person { Id = Guid.CreateVersion7(), Name = name.Trim(), UserName = email, Email = email, Language = say.Language };
        var made = await people.CreateAsync(person, password);
        NewPassword.Tell(made, (_, why) => refuse(PasswordField, why));
        return made.Succeeded ? person : null;
    }

    private async Task<Person?> RecognisedAsync(Person known, Invitation invitation, string password, Action<string, string> refuse)
    {
        if (!await signIn.KnowsPasswordAsync(known, password))
        {
            refuse(PasswordField, "This is not the password of your account. After eight wrong tries it rests for ten minutes.");
            return null;
        }

        if (await db.Memberships.AnyAsync(m => m.PersonId == known.Id && m.ProgrammeId == invitation.ProgrammeId))
        {
            refuse(PasswordField, "Your account is in this programme already. Sign in; if your role should be another, ask your programme lead.");
            return null;
        }

        return known;
    }

    private IQueryable<Invitation> Invitations(string secret)
    {
        var hash = Secrets.Hash(secret);
        return db.Invitations.Where(i => i.SecretHash == hash);
    }

    private InvitationState StateOf(Invitation invitation) =>
        invitation.AcceptedAt is not null ? InvitationState.Used
        : invitation.WithdrawnAt is not null ? InvitationState.Withdrawn
        : invitation.IsOpenAt(Now) ? InvitationState.Open
        : InvitationState.RanOut;
}
