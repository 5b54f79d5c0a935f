using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Tankside.Portal.Accounts;
using Tankside.Storage;
using Tankside.Storage.People;

namespace Tankside.Portal.People;

/// <summary>What became of a lead's help for a member who cannot sign in.</summary>
public abstract record HelpOutcome
{
    /// <param name="Link">To hand on; null where the help needs none.</param>
    public sealed record Done(Uri? Link = null) : HelpOutcome;

    public sealed record NotFound : HelpOutcome;

    public sealed record Refused(string Why) : HelpOutcome;
}

/// <summary>
/// A lead's help for a member who cannot sign in: a link to a new password for when mail does not arrive, and the second step switched off
/// for a phone that is lost. Not for somebody who is in another programme here too: the lead of one must not come into another by it.
/// </summary>
public sealed class HelpIn(HatcheryDb db, UserManager<Person> people, PasswordLinks links, TwoSteps steps, ILogger<HelpIn> log)
{
    public async Task<HelpOutcome> HandLinkAsync(CurrentUser lead, Guid membershipId, CancellationToken cancel)
    {
        var (person, outcome) = await FindAsync(lead, membershipId, cancel);
        if (person is null)
        {
            return outcome;
        }

        log.LogInformation("{Lead} made a link to a new password for {Person}", lead.PersonId, person.Id);
        return new HelpOutcome.Done(await links.NewAsync(person));
    }

    public async Task<HelpOutcome> SwitchOffStepAsync(CurrentUser lead, Guid membershipId, CancellationToken cancel)
    {
        var (person, outcome) = await FindAsync(lead, membershipId, cancel);
        if (person is null)
        {
            return outcome;
        }

        await steps.SwitchOffAsync(person, passkeysToo: true);
        log.LogInformation("{Lead} switched the second step off for {Person}", lead.PersonId, person.Id);
        return outcome;
    }

    /// <summary>As a changed role and removal do, so of somebody in another programme too: they sign in again, and nobody comes in by it.</summary>
    public async Task<HelpOutcome> EndSessionsAsync(CurrentUser lead, Guid membershipId, CancellationToken cancel)
    {
        if (await db.Memberships.Where(m => m.Id == membershipId && m.ProgrammeId == lead.ProgrammeId).Select(m => (Guid?)m.PersonId).SingleOrDefaultAsync(cancel) is not { } id
            || await people.FindByIdAsync(id.ToString()) is not { } person)
        {
            return new HelpOutcome.NotFound();
        }

        await people.UpdateSecurityStampAsync(person);
        log.LogInformation("{Lead} ended the sessions of {Person}", lead.PersonId, person.Id);
        return new HelpOutcome.Done();
    }

    private async Task<(Person? Person, HelpOutcome Outcome)> FindAsync(CurrentUser lead, Guid membershipId, CancellationToken cancel)
    {
        var personId = await db.Memberships.Where(m => m.Id == membershipId && m.ProgrammeId == lead.ProgrammeId)
            .Select(m => (Guid?)m.PersonId).SingleOrDefaultAsync(cancel);
        if (personId is null || await people.FindByIdAsync(personId.Value.ToString()) is not { } person)
        {
            return (null, new HelpOutcome.NotFound());
        }

        return await db.Memberships.AnyAsync(m => m.PersonId == personId && m.ProgrammeId != lead.ProgrammeId, cancel)
            ? (null, new HelpOutcome.Refused($"{person.Name} is in another programme here too, so you cannot do this for them. They get a new password by “I forgot my password”; for a lost phone there are their recovery codes, and whoever runs the installation. Nothing was changed."))
            : (person, new HelpOutcome.Done());
    }
}
