using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell;
using Tankside.Storage;
using Tankside.Storage.People;

namespace Tankside.Portal.People;

public sealed class EraseForm
{
    /// <summary>The mail address typed once more: nobody erases somebody by a slip of the finger.</summary>
    public string? Confirm { get; set; }
}

/// <summary>
/// Takes an adult's personal data out for good: the account is emptied and has no way in, and wherever it did something stands "former
/// teacher" or the like. What was done stays, because the account to the agency needs it. Words that somebody typed about a person into a
/// note can't be found; the page says so.
/// </summary>
public sealed class ErasePerson(IDbContextFactory<HatcheryDb> databases, IEnumerable<IForgetsPerson> words, TimeProvider time, ILogger<ErasePerson> log)
{
    public const string LastLead = "You are the only programme lead of a programme. Give another person the role first. Nothing was erased.";

    public Task<Notice?> EraseMeAsync(CurrentUser user, EraseForm form, Action<string, string> refuse, CancellationToken cancel) =>
        InTurn.SaveAsync(() => TryAsync(user.PersonId, null, form, refuse, cancel), refuse);

    /// <summary>By a lead, of somebody who is in this programme and no other.</summary>
    public async Task<Notice?> EraseMemberAsync(CurrentUser lead, Guid membershipId, EraseForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await db.Memberships.Where(m => m.Id == membershipId && m.ProgrammeId == lead.ProgrammeId).Select(m => (Guid?)m.PersonId).SingleOrDefaultAsync(cancel) is { } person
            ? await InTurn.SaveAsync(() => TryAsync(person, lead, form, refuse, cancel), refuse)
            : new Notice(true, "This person is not in the programme any more.");
    }

    private async Task<Notice?> TryAsync(Guid personId, CurrentUser? lead, EraseForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var person = await db.Users.SingleAsync(p => p.Id == personId, cancel);
        var memberships = await db.Memberships.Where(m => m.PersonId == personId).ToListAsync(cancel);
        if (await WhyNotAsync(db, person, memberships, lead, form, cancel) is { } why)
        {
            refuse(why.Field, why.Text);
            return null;
        }

        await using var transaction = await db.Database.BeginTransactionAsync(cancel);
        // In two programmes under two roles one word has to fit both.
        var (mail, role) = (person.Email!, memberships.Select(m => m.Role).Distinct().ToList() is [var one] ? one.Word() : "member");
        var forgotten = new Forgotten(personId, $"former {role}", Instants.ToMillisecond(time.GetUtcNow().UtcDateTime));
        foreach (var word in words)
        {
            await word.ForgetAsync(db, forgotten, cancel);
        }

        db.RemoveRange(memberships);
        db.RemoveRange(await MyData.InvitationsAsync(db, mail, cancel));
        await db.Drafts.Where(d => d.PersonId == personId).ExecuteDeleteAsync(cancel);
        await db.NewsSeen.Where(n => n.PersonId == personId).ExecuteDeleteAsync(cancel);
        await db.OpenSessions.Where(s => s.PersonId == personId).ExecuteDeleteAsync(cancel);
        await db.Passkeys.Where(p => p.UserId == personId).ExecuteDeleteAsync(cancel);
        await db.UserTokens.Where(t => t.UserId == personId).ExecuteDeleteAsync(cancel);
        await db.OutgoingLetters.Where(l => l.PersonId == personId || l.To == mail).ExecuteDeleteAsync(cancel);
        var key = RefusedAddress.Key(mail);
        await db.RefusedAddresses.Where(a => a.Address == key).ExecuteDeleteAsync(cancel);
        Empty(person, forgotten.CalledNow);
        await db.SaveChangesAsync(cancel);
        await transaction.CommitAsync(cancel);
        log.LogInformation("The personal data of {Person} are erased", personId);
        return new Notice(true, $"Erased for good. What was done under this name stands as done by a {forgotten.CalledNow}.");
    }

    private static async Task<(string Field, string Text)?> WhyNotAsync(
        HatcheryDb db, Person person, List<Membership> memberships, CurrentUser? lead, EraseForm form, CancellationToken cancel)
    {
        if (!string.Equals(form.Confirm?.Trim(), person.Email, StringComparison.OrdinalIgnoreCase))
        {
            return (nameof(form.Confirm), "Type the mail address of this account to say that you mean it. Nothing was erased.");
        }

        if (lead is not null && memberships.Exists(m => m.ProgrammeId != lead.ProgrammeId))
        {
            return (nameof(form.Confirm), "This person is in another programme here too, so only they can erase their data, on their own page. You can remove them from yours. Nothing was erased.");
        }

        foreach (var membership in memberships)
        {
            if (!await Leads.CanSpareAsync(db, membership, cancel))
            {
                return (nameof(form.Confirm), LastLead);
            }
        }

        return null;
    }

    /// <summary>The address can never be written to: RFC 2606 keeps ".invalid" for nobody.</summary>
    private static void Empty(Person person, string called)
    {
        var nobody = $"{person.Id:N}@erased.invalid";
        (person.Name, person.PhoneNumber, person.PasswordHash) = (called, null, null);
        (person.Email, person.UserName) = (nobody, nobody);
        (person.NormalizedEmail, person.NormalizedUserName) = (nobody.ToUpperInvariant(), nobody.ToUpperInvariant());
        (person.Language, person.QuietFrom, person.QuietTo, person.WantsDigest, person.WantsUrgent) = ("en", null, null, false, false);
        (person.TwoFactorEnabled, person.WorksIn) = (false, null);
        (person.WithoutAnnouncements, person.WithoutReminders) = (true, true);
        (person.EmailConfirmed, person.LockoutEnabled, person.LockoutEnd) = (false, true, DateTimeOffset.MaxValue);
        Sessions.EndAll(person);
    }
}
