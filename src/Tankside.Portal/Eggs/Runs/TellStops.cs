using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Eggs.Runs;
using Tankside.Portal.Accounts;
using Tankside.Portal.Accounts.Mail;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Eggs.Runs;

/// <summary>
/// Writes to the teachers of every stop when the eggs come, and to the drivers who are members. A time once told is not told again; planned anew
/// with another time, the new one is told.
/// </summary>
public sealed class TellStops(IDbContextFactory<HatcheryDb> databases, RunBoard board, RunContacts contacts, Outbox outbox, TanksideOptions options)
{
    /// <summary>What the keys of these letters begin with.</summary>
    public const string KeyStart = "run ";

    private const int Tries = 3;

    public async Task<Notice> HandleAsync(CurrentUser user, Guid runId, CancellationToken cancel)
    {
        for (var tried = 1; ; tried++)
        {
            try
            {
                return await TryAsync(user, runId, cancel);
            }
            catch (DbUpdateException e) when (tried < Tries && e.IsUniqueViolation())
            {
                // Another coordinator pressed at the same moment; the next try leaves out what was written.
            }
        }
    }

    private async Task<Notice> TryAsync(CurrentUser user, Guid runId, CancellationToken cancel)
    {
        if (await board.FindAsync(user, runId, cancel) is not { } view)
        {
            return new Notice(false, "This run is gone. Nobody was written to.");
        }

        if (view.Run.Plan != PlanState.Planned)
        {
            return new Notice(false, "Nobody was written to: the plan is not up to date. Plan first, so that the times told are the times driven.");
        }

        var people = await contacts.OfAsync(view, user, cancel);
        var stops = view.Standing.Where(s => s.Stop.Begins is not null && !s.HasEnded && !s.Stop.ToHolding).ToList();
        await using var db = await databases.CreateDbContextAsync(cancel);
        var written = 0;
        foreach (var stop in stops)
        {
            foreach (var teacher in people.Teachers[stop.School.Id])
            {
                var texts = StopTexts.In(teacher.Language);
                var link = new Uri(options.PublicUrl, $"runs/{runId}/stops/{stop.Stop.Id}/arrival");
                var key = $"{KeyStart}{runId} {stop.Stop.Id} {stop.Stop.Begins:HHmm} {teacher.Id}";
                written += await outbox.WriteAsync(db, new NewLetter(
                    key, user.ProgrammeId, teacher.Id, teacher.Email!, texts.Subject(view, stop), texts.Letter(view, stop, teacher.Name, RunPeople.Reach(people.Coordinator), link)), cancel) ? 1 : 0;
            }
        }

        written += await TellDriversAsync(db, view, cancel);
        await db.SaveChangesAsync(cancel);
        outbox.Wake();
        var nobody = stops.Where(s => !people.Teachers[s.School.Id].Any()).Select(s => s.School.Name).Distinct().ToList();
        return new Notice(
            nobody.Count == 0,
            (written == 0 ? "Everybody had been told these times already." : written == 1 ? "1 message is on its way." : $"{written} messages are on their way.")
            + (nobody.Count == 0 ? "" : $" No teacher belongs to {string.Join(", ", nobody)}: ring the office there."));
    }

    private async Task<int> TellDriversAsync(HatcheryDb db, RunView view, CancellationToken cancel)
    {
        var members = view.Drivers.Where(d => d.OutAt is null && d.PersonId is not null && view.RoundOf(d).Count > 0).ToList();
        var ids = members.Select(d => d.PersonId!.Value).ToList();
        var persons = await db.Users.AsNoTracking().Where(p => ids.Contains(p.Id)).ToDictionaryAsync(p => p.Id, cancel);
        var written = 0;
        foreach (var driver in members)
        {
            var person = persons[driver.PersonId!.Value];
            var round = string.Join("\n", view.RoundOf(driver).Select(s => $"{s.Stop.Place}. {RunView.Time(s.Stop.Begins)} {s.Name}, {RunWords.Eggs(s.Stop.Eggs)}"));
            var text =
                $"""
                Hello {person.Name},

                your round in {view.Run.Name} on {view.Day}: leave at {RunView.Time(driver.Leaves)}, back about {RunView.Time(driver.Back)}.

                {round}

                Your sheet for the phone, without signing in; it also works without a network once you have opened it:

                {new Uri(options.PublicUrl, $"run/{driver.Code}")}

                {Tempering.Caution}

                {view.Programme.Name}, by Tankside
                """;
            var key = string.Create(CultureInfo.InvariantCulture, $"{KeyStart}{view.Run.Id} {driver.Id} {view.Run.PlannedAt:yyyyMMddHHmmss}");
            written += await outbox.WriteAsync(
                db, new NewLetter(key, view.Run.ProgrammeId, person.Id, person.Email!, $"Your round {view.Run.Name} on {view.Day}", text), cancel) ? 1 : 0;
        }

        return written;
    }
}
