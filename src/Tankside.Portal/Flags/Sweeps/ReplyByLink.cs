using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Accounts;
using Tankside.Portal.Flags.AtTheTank;
using Tankside.Portal.Readings;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Flags.Sweeps;

/// <summary>A tank of the asked school, with the last that was read of its water.</summary>
public sealed record AskedTank(Guid Id, string Code, string Room, TemperatureUnit Unit)
{
    public double? LastC { get; init; }

    public DateTime? LastAt { get; init; }
}

/// <summary>What a link in the message opens: one question about one school. No person's name, no other school.</summary>
public sealed record AskedSchool(SweepReply Reply, SweepMessage Message, string School, IReadOnlyList<AskedTank> Tanks, string Language, bool IsOver)
{
    public SweepTexts Texts => SweepTexts.In(Language);

    public ReplyWords Words => ReplyWords.In(Language);
}

/// <summary>Finds the question that a secret opens, and keeps the answer. Guessing is limited by address, as for room codes.</summary>
public sealed class ReplyByLink(
    IDbContextFactory<HatcheryDb> databases, TimeProvider time, WrongCodes wrongCodes, NewFacts newFacts, RoundFeed feed)
{
    private const int Tries = 3;

    public async Task<AskedSchool?> FindAsync(string secret, string address, CancellationToken cancel)
    {
        var hash = Secrets.Hash(secret);
        await using var db = await databases.CreateDbContextAsync(cancel);
        var found = await (
            from reply in db.SweepReplies.AsNoTracking()
            join sweep in db.AreaSweeps on reply.SweepId equals sweep.Id
            join school in db.Schools on reply.SchoolId equals school.Id
            where reply.SecretHash == hash
            select new { reply, sweep, School = school.Name }).SingleOrDefaultAsync(cancel);
        if (found is null)
        {
            wrongCodes.Count(address);
            return null;
        }

        var language = await db.Users.Where(p => p.Id == found.reply.PersonId).Select(p => p.Language).SingleOrDefaultAsync(cancel) ?? "en";
        var message = await MessageTeachers.MessageAsync(db, found.sweep, cancel);
        var tanks = await TanksAsync(db, found.reply.SchoolId, cancel);
        return new AskedSchool(found.reply, message, found.School, tanks, language, !found.sweep.TakesAnswersAt(time.GetUtcNow().UtcDateTime));
    }

    /// <summary>Keeps what was pressed, and the note; the last press counts.</summary>
    public async Task AnswerAsync(Guid replyId, SweepAnswer? answer, string? note, CancellationToken cancel)
    {
        for (var attempt = 1; ; attempt++)
        {
            try
            {
                await TryAnswerAsync(replyId, answer, note, cancel);
                return;
            }
            catch (DbUpdateConcurrencyException) when (attempt < Tries)
            {
                // Pressed twice at once: the later one is kept.
            }
        }
    }

    private async Task TryAnswerAsync(Guid replyId, SweepAnswer? answer, string? note, CancellationToken cancel)
    {
        var now = Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);
        await using var db = await databases.CreateDbContextAsync(cancel);
        var reply = await db.SweepReplies.SingleAsync(r => r.Id == replyId, cancel);
        if (answer is not null)
        {
            (reply.Answer, reply.AnsweredAt) = (answer, now);
        }

        reply.Note = note ?? reply.Note;
        db.HaveJudged(await db.OpenTanksOf(db.Schools.Where(s => s.Id == reply.SchoolId)).Select(t => t.Id).ToListAsync(cancel), now);
        await db.SaveChangesAsync(cancel);
        newFacts.Tell();
        feed.Tell(await db.Schools.Where(s => s.Id == reply.SchoolId).Select(s => s.ProgrammeId).ToListAsync(cancel));
    }

    private static async Task<IReadOnlyList<AskedTank>> TanksAsync(HatcheryDb db, Guid schoolId, CancellationToken cancel)
    {
        var tanks = await (
            from tank in db.Tanks.AsNoTracking()
            join room in db.Classrooms on tank.ClassroomId equals room.Id
            where room.SchoolId == schoolId && tank.ClosedAt == null
            orderby room.Name, tank.Code
            select new AskedTank(tank.Id, tank.Code, room.Name, tank.UsualUnit)).ToListAsync(cancel);
        var ids = tanks.Select(t => t.Id).ToList();
        var last = await db.Readings.AsNoTracking()
            .Where(r => ids.Contains(r.TankId) && r.State == ReadingState.Accepted && r.CorrectedBy == null && r.Seen.WaterC != null)
            .GroupBy(r => r.TankId).Select(g => g.OrderByDescending(r => r.At).First()).ToListAsync(cancel);
        return [.. tanks.Select(t => last.SingleOrDefault(r => r.TankId == t.Id) is { } r ? t with { LastC = r.Seen.WaterC, LastAt = r.At } : t)];
    }
}
