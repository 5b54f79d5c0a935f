using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Seasons;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell;
using Tankside.Storage;
using Tankside.Storage.People;

namespace Tankside.Portal.Seasons.SetUp;

/// <summary>What a set-up link is good for at this moment.</summary>
public enum SetUpState
{
    Open,
    NoSuchLink,
    AlreadySetUp,
}

/// <summary>Makes a programme, its lead and its first season, once a link.</summary>
public sealed class SetUpProgramme(HatcheryDb db, UserManager<Person> people, HouseSignIn signIn, ProgrammeInHand inHand, TimeProvider time, Say say)
{
    private DateTime Now => Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);

    public async Task<SetUpState> StateAsync(string secret, CancellationToken cancel)
    {
        var now = Now;
        var link = await db.SetUpLinks.AsNoTracking().FirstOrDefaultAsync(l => l.Secret == secret && l.UsedAt == null && l.ExpiresAt > now, cancel);
        return link is { ForAnother: true } ? SetUpState.Open
            : await db.Programmes.AnyAsync(cancel) ? SetUpState.AlreadySetUp
            : link is not null ? SetUpState.Open
            : SetUpState.NoSuchLink;
    }

    /// <summary>The lead, ready to be signed in; null with <paramref name="refuse"/> told which field to look at and why.</summary>
    public async Task<Person?> HandleAsync(string secret, SetUpForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        if (!TimeZones.All.Contains(form.TimeZone!))
        {
            refuse(nameof(form.TimeZone), "Choose a time zone from the list.");
            return null;
        }

        try
        {
            return await MakeAsync(secret, form, refuse, cancel);
        }
        catch (DbUpdateException e) when (e is DbUpdateConcurrencyException || e.IsUniqueViolation())
        {
            // The same link was sent twice at once; the other one has made the programme.
            return null;
        }
    }

    private async Task<Person?> MakeAsync(string secret, SetUpForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        await using var turn = await db.Database.BeginTransactionAsync(cancel);
        if (await StateAsync(secret, cancel) != SetUpState.Open)
        {
            return null;
        }

        var name = form.Programme!.Trim();
        if (await db.Programmes.AnyAsync(p => p.Name == name, cancel))
        {
            refuse(nameof(form.Programme), "There is a programme of this name here already. Nothing was made; please choose another.");
            return null;
        }

        if (await LeadAsync(form, refuse) is not { } lead)
        {
            // A wrong password counts towards the lock-out, so what is written so far stays.
            await turn.CommitAsync(cancel);
            return null;
        }

        AddProgramme(form, lead);
        (await db.SetUpLinks.SingleAsync(l => l.Secret == secret, cancel)).UsedAt = Now;
        await db.SaveChangesAsync(cancel);
        await turn.CommitAsync(cancel);
        return lead;
    }

    /// <summary>Whoever has an account in another programme here keeps it, and says so by its password.</summary>
    private async Task<Person?> LeadAsync(SetUpForm form, Action<string, string> refuse)
    {
        var email = form.Email!.Trim();
        if (await people.FindByEmailAsync(email) is { } known)
        {
            if (await signIn.KnowsPasswordAsync(known, form.Password!))
            {
                return known;
            }

            refuse(nameof(form.Password), "This address has an account here, and this is not its password. Type that, or use another address. Nothing was made.");
            return null;
        }

        var lead = new Person { Id = Guid.CreateVersion7(), Name = form.Name!.Trim(), UserName = email, Email = email, Language = say.Language };
        var made = await people.CreateAsync(lead, form.Password!);
        NewPassword.Tell(made, refuse);
        return made.Succeeded ? lead : null;
    }

    private void AddProgramme(SetUpForm form, Person lead)
    {
        var programme = new Programme
        {
            Id = Guid.CreateVersion7(),
            Name = form.Programme!.Trim(),
            TimeZone = form.TimeZone!,
            ScreenUnit = form.Unit,
        };
        var (_, starts, ends) = FirstSeason.At(ProgrammeClock.Of(programme.TimeZone).Day(Now));
        lead.WorksIn = programme.Id;
        inHand.Take(lead.Id, programme.Id);
        db.Add(programme);
        db.Add(new Membership { Id = Guid.CreateVersion7(), PersonId = lead.Id, ProgrammeId = programme.Id, Role = Role.ProgrammeLead });
        db.Add(new Season
        {
            Id = Guid.CreateVersion7(),
            ProgrammeId = programme.Id,
            Name = form.Season!.Trim(),
            StartsOn = starts,
            EndsOn = ends,
        });
    }
}
