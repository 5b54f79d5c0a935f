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

/// <summary>Makes the first programme, its lead and its first season, once.</summary>
public sealed class SetUpProgramme(HatcheryDb db, UserManager<Person> people, TimeProvider time)
{
    private DateTime Now => Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);

    public async Task<SetUpState> StateAsync(string secret, CancellationToken cancel)
    {
        var now = Now;
        return await db.Programmes.AnyAsync(cancel) ? SetUpState.AlreadySetUp
            : await db.SetUpLinks.AnyAsync(l => l.Secret == secret && l.UsedAt == null && l.ExpiresAt > now, cancel) ? SetUpState.Open
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

        var email = form.Email!.Trim();
        var lead = new Person { Id = Guid.CreateVersion7(), Name = form.Name!.Trim(), UserName = email, Email = email };
        var made = await people.CreateAsync(lead, form.Password!);
        if (!made.Succeeded)
        {
            NewPassword.Tell(made, refuse);
            return null;
        }

        AddProgramme(form, lead);
        (await db.SetUpLinks.SingleAsync(l => l.Secret == secret, cancel)).UsedAt = Now;
        await db.SaveChangesAsync(cancel);
        await turn.CommitAsync(cancel);
        return lead;
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
