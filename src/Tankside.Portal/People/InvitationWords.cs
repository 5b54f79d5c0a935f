using System.Data.Common;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Portal.Accounts.Mail;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.People;

/// <summary>
/// Words the mail of an invitation when it goes, with a link made in that moment. Of the letter only words without the link are kept; a
/// letter that has to be tried again carries a new link, and the one before is void.
/// </summary>
internal sealed class InvitationWords(
    IDbContextFactory<HatcheryDb> databases, IPlaceNames places, TanksideOptions options, TimeProvider time) : IFreshWords
{
    private static readonly TimeSpan WaitAfterTrouble = TimeSpan.FromMinutes(1);

    public bool Knows(OutgoingLetter letter) => letter.Key.StartsWith(InvitationsByMail.KeyStart, StringComparison.Ordinal);

    public async Task<FreshWords> WordAsync(OutgoingLetter letter, CancellationToken cancel)
    {
        try
        {
            return await WithLinkAsync(letter, cancel);
        }
        catch (Exception e) when (e is DbException or DbUpdateException or TimeoutException)
        {
            // The words it was written with hold no link: without one it is better sent later.
            return new FreshWords.Later(Instants.ToMillisecond(time.GetUtcNow().UtcDateTime) + WaitAfterTrouble);
        }
    }

    private async Task<FreshWords> WithLinkAsync(OutgoingLetter letter, CancellationToken cancel)
    {
        var id = Guid.Parse(letter.Key[InvitationsByMail.KeyStart.Length..]);
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (await db.Invitations.SingleOrDefaultAsync(i => i.Id == id, cancel) is not { } invitation || !invitation.IsOpenAt(time.GetUtcNow().UtcDateTime))
        {
            return new FreshWords.NotNeeded("the invitation is not open any more");
        }

        var secret = Secrets.New();
        invitation.SecretHash = Secrets.Hash(secret);
        await db.SaveChangesAsync(cancel);
        var programme = await db.Programmes.AsNoTracking().SingleAsync(p => p.Id == invitation.ProgrammeId, cancel);
        var inviter = await db.Users.Where(p => p.Id == invitation.InvitedBy).Select(p => p.Name).SingleOrDefaultAsync(cancel) ?? programme.Name;
        var place = RoleAtSchool.Words(invitation.Role, invitation.SchoolId, await places.SchoolsAsync(programme.Id, cancel));
        Letter Say(Uri link) => AccountLetters.Invitation(invitation.Email, inviter, programme.Name, place, link, LocalTimes.Moment(programme, invitation.ExpiresAt), invitation.Name);
        var said = Say(new Uri(options.PublicUrl, $"invitation/{secret}"));
        return new FreshWords.Say(said.Subject, said.Text, Say(new Uri(options.PublicUrl, "invitation/…")).Text);
    }
}
