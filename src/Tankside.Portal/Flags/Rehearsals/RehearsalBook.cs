using System.Security.Cryptography;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Flags.Rehearsals;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Portal.People;
using Tankside.Storage;

namespace Tankside.Portal.Flags.Rehearsals;

/// <summary>Somebody who can be given a morning to work.</summary>
public sealed record Learner(Guid PersonId, string Name);

/// <summary>A morning in the list.</summary>
/// <param name="Result">Null while it is being worked.</param>
public sealed record ListedRehearsal(RehearsalMorning Row, string WorkedBy, RehearsalResult? Result);

/// <summary>The rehearsals that somebody may see: a lead those of the whole programme, a coordinator their own.</summary>
public sealed class RehearsalBook(IDbContextFactory<HatcheryDb> databases, TimeProvider time)
{
    /// <summary>How many past mornings are listed.</summary>
    public const int Listed = 40;

    public async Task<IReadOnlyList<ListedRehearsal>> ListAsync(CurrentUser user, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var minutes = await MinutesACallAsync(db, user.ProgrammeId, cancel);
        var rows = await VisibleTo(db, user).AsNoTracking()
            .OrderByDescending(m => m.StartedAt).ThenBy(m => m.Id).Take(Listed).ToListAsync(cancel);
        var people = rows.Select(r => r.WorkedBy).Distinct().ToList();
        var names = await db.Users.Where(p => people.Contains(p.Id)).ToDictionaryAsync(p => p.Id, p => p.Name, cancel);
        return [.. rows.Select(row => new ListedRehearsal(
            row,
            names.GetValueOrDefault(row.WorkedBy, "a former member"),
            row.FinishedAt is null ? null : RehearsalResult.Of(Rehearsing.Morning(row.Seed), row.Called, minutes)))];
    }

    /// <summary>Null when there is none of this id for this person.</summary>
    public async Task<WorkedMorning?> FindAsync(CurrentUser user, Guid id, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (await VisibleTo(db, user).AsNoTracking().SingleOrDefaultAsync(m => m.Id == id, cancel) is not { } row)
        {
            return null;
        }

        var programme = await db.Programmes.AsNoTracking().SingleAsync(p => p.Id == user.ProgrammeId, cancel);
        var name = await db.Users.Where(p => p.Id == row.WorkedBy).Select(p => p.Name).SingleOrDefaultAsync(cancel);
        return new WorkedMorning(
            row, name ?? "a former member", row.WorkedBy == user.PersonId, programme.ScreenUnit, await MinutesACallAsync(db, user.ProgrammeId, cancel))
        {
            Texts = await db.OwnTextsOfAsync(user.ProgrammeId, cancel),
        };
    }

    /// <summary>Coordinators and leads of the programme, by name.</summary>
    public async Task<IReadOnlyList<Learner>> LearnersAsync(CurrentUser user, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await (
            from member in db.Memberships
            join person in db.Users on member.PersonId equals person.Id
            where member.ProgrammeId == user.ProgrammeId && (member.Role == Role.Coordinator || member.Role == Role.ProgrammeLead)
            orderby person.Name
            select new Learner(person.Id, person.Name)).ToListAsync(cancel);
    }

    /// <summary>Starts a morning; a coordinator's is their own, a lead chooses whose. Null when that person cannot be given one.</summary>
    /// <param name="seed">The morning's number; null draws one.</param>
    public async Task<RehearsalMorning?> StartAsync(CurrentUser user, Guid worker, int? seed, CancellationToken cancel)
    {
        if (worker != user.PersonId && (user.Role != Role.ProgrammeLead || (await LearnersAsync(user, cancel)).All(l => l.PersonId != worker)))
        {
            return null;
        }

        var now = time.GetUtcNow().UtcDateTime;
        var row = new RehearsalMorning
        {
            Id = Guid.CreateVersion7(new DateTimeOffset(now)),
            ProgrammeId = user.ProgrammeId,
            Seed = seed ?? RandomNumberGenerator.GetInt32(Rehearsing.LeastSeed, Rehearsing.MostSeed + 1),
            StartedBy = user.PersonId,
            WorkedBy = worker,
            StartedAt = Shell.Instants.ToMillisecond(now),
        };
        await using var db = await databases.CreateDbContextAsync(cancel);
        db.Rehearsals.Add(row);
        await db.SaveChangesAsync(cancel);
        return row;
    }

    /// <summary>Takes a morning off the list for good.</summary>
    public async Task<Notice> RemoveAsync(CurrentUser user, Guid id, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (await VisibleTo(db, user).SingleOrDefaultAsync(m => m.Id == id, cancel) is not { } row)
        {
            return new Notice(false, "That rehearsal is not there any more.");
        }

        db.Rehearsals.Remove(row);
        try
        {
            await db.SaveChangesAsync(cancel);
        }
        catch (DbUpdateConcurrencyException)
        {
            return new Notice(false, "That rehearsal was worked on at this moment and is kept. Remove it again if you still want to.");
        }

        return new Notice(true, $"Removed: morning {row.Seed}. The same number makes the same morning again.");
    }

    internal static IQueryable<RehearsalMorning> VisibleTo(HatcheryDb db, CurrentUser user) => db.Rehearsals
        .Where(m => m.ProgrammeId == user.ProgrammeId && (user.Role == Role.ProgrammeLead || m.WorkedBy == user.PersonId));

    private static async Task<double> MinutesACallAsync(HatcheryDb db, Guid programmeId, CancellationToken cancel)
    {
        var own = await db.Settings.Where(s => s.ProgrammeId == programmeId && s.Key == Limits.RehearsalCallMinutes.Key)
            .ToDictionaryAsync(s => s.Key, s => s.Value, cancel);
        return new LimitSet(own)[Limits.RehearsalCallMinutes];
    }
}
