using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using MimeKit;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Portal.Accounts.Mail;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.People;

/// <summary>What became of an invitation: made, with its link and its mail's fate, or refused at a field.</summary>
public abstract record InviteOutcome
{
    public sealed record Invited(Uri Link, MailOutcome Mail) : InviteOutcome;

    public sealed record Refused(string Field, string Why) : InviteOutcome;
}

/// <summary>Invites one address. A newer invitation replaces the open ones to the same address.</summary>
public sealed class InvitePerson(
    IDbContextFactory<HatcheryDb> databases, ILookupNormalizer normal, IPlaceNames places, IMailer mailer, TanksideOptions options, TimeProvider time)
{
    public const string EmailField = "Email", SchoolField = "School";

    public async Task<InviteOutcome> HandleAsync(CurrentUser user, string email, RoleAtSchool wanted, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (!MailboxAddress.TryParse(email, out var mailbox) || mailbox.Address != email)
        {
            return new InviteOutcome.Refused(EmailField, "This does not look like an email address. We expected something like name@school.org.");
        }

        if (await MemberNameAsync(db, user, email, cancel) is { } name)
        {
            return new InviteOutcome.Refused(EmailField, $"{name} is in the programme already.");
        }

        var schools = await places.SchoolsAsync(user.ProgrammeId, cancel);
        if (wanted.Misfit(schools) is { } misfit)
        {
            return new InviteOutcome.Refused(SchoolField, misfit);
        }

        var now = Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);
        await WithdrawEarlierAsync(db, user, email, now, cancel);
        var secret = Secrets.New();
        var invitation = New(user, email, wanted, secret, now);
        db.Add(invitation);
        await db.SaveChangesAsync(cancel);

        var link = new Uri(options.PublicUrl, $"invitation/{secret}");
        return new InviteOutcome.Invited(link, await mailer.SendAsync(await LetterAsync(db, invitation, link, schools, cancel), cancel));
    }

    private static Invitation New(CurrentUser user, string email, RoleAtSchool wanted, string secret, DateTime now) => new()
    {
        Id = Guid.CreateVersion7(),
        ProgrammeId = user.ProgrammeId,
        Email = email,
        Role = wanted.Role,
        SchoolId = wanted.SchoolId,
        SecretHash = Secrets.Hash(secret),
        InvitedAt = now,
        InvitedBy = user.PersonId,
        ExpiresAt = now + Invitation.Lifetime,
    };

    private async Task<string?> MemberNameAsync(HatcheryDb db, CurrentUser user, string email, CancellationToken cancel)
    {
        var normalized = normal.NormalizeEmail(email);
        return await (
            from m in db.Memberships
            join p in db.Users on m.PersonId equals p.Id
            where m.ProgrammeId == user.ProgrammeId && p.NormalizedEmail == normalized
            select p.Name).FirstOrDefaultAsync(cancel);
    }

    private async Task WithdrawEarlierAsync(HatcheryDb db, CurrentUser user, string email, DateTime now, CancellationToken cancel)
    {
        var unanswered = await db.Invitations
            .Where(i => i.ProgrammeId == user.ProgrammeId && i.AcceptedAt == null && i.WithdrawnAt == null).ToListAsync(cancel);
        foreach (var earlier in unanswered.Where(i => normal.NormalizeEmail(i.Email) == normal.NormalizeEmail(email)))
        {
            earlier.WithdrawnAt = now;
        }
    }

    private static async Task<Letter> LetterAsync(
        HatcheryDb db, Invitation invitation, Uri link, IReadOnlyList<SchoolChoice> schools, CancellationToken cancel)
    {
        var programme = await db.Programmes.SingleAsync(p => p.Id == invitation.ProgrammeId, cancel);
        var inviter = await db.Users.Where(p => p.Id == invitation.InvitedBy).Select(p => p.Name).SingleAsync(cancel);
        var place = RoleAtSchool.Words(invitation.Role, invitation.SchoolId, schools);
        return AccountLetters.Invitation(invitation.Email, inviter, programme.Name, place, link, LocalTimes.Moment(programme, invitation.ExpiresAt));
    }
}
