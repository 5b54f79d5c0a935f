using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Science.Units;
using Tankside.Storage;

namespace Tankside.Portal.Flags.Sweeps;

/// <summary>One school under a mark.</summary>
/// <param name="Said">The standing answers: who, what, when, with the note.</param>
/// <param name="HoursLeft">Of its tank that has to be helped first; null where time is not the question.</param>
public sealed record SweptSchool(
    School School, SchoolWord? Word, IReadOnlyList<SweptAnswer> Said, int Asked, IReadOnlyList<TankGlance> Tanks, Band? HoursLeft)
{
    public int Flagged => Tanks.Count(t => t.Flags.Count > 0);

    public TankGlance? LastRead => Tanks.Where(t => t.LastAt is not null).MaxBy(t => t.LastAt);

    /// <summary>Trouble first, then no power, then nobody knows, then well.</summary>
    public int Turn => Word?.Answer switch
    {
        SweepAnswer.Trouble => 0,
        SweepAnswer.PowerOff => 1,
        null or SweepAnswer.NobodyThere => 2,
        SweepAnswer.AllWell => 3,
        _ => throw new ArgumentOutOfRangeException(nameof(Word), Word, "not an answer"),
    };
}

/// <summary>An answer as the board tells it.</summary>
/// <param name="By">The teacher; null for what the school told the coordinator.</param>
public sealed record SweptAnswer(SweepAnswer? Answer, DateTime? At, string? By, string? Note);

/// <summary>What became of the letters of a mark.</summary>
/// <param name="Quiet">Those that wait for the end of a teacher's quiet hours.</param>
public sealed record SweepLetters(int Written, int Sent, int Waiting, int Quiet, int Failed, DateTime? FirstAt);

/// <summary>A teacher of a marked school, for those who text or ring.</summary>
/// <param name="Link">Their own link, from their letter; null before they were written to.</param>
public sealed record SweptTeacher(string Name, string School, string? Phone, string Language, string? Link);

/// <summary>A marked area with every school's answer.</summary>
public sealed record SweepNow(
    AreaSweep Sweep, SweepMessage Message, string? MarkedBy, string? EndedBy, DateTime At, TemperatureUnit Unit,
    IReadOnlyList<SweptSchool> Schools, IReadOnlyList<SweptTeacher> Teachers, SweepLetters Letters, int NotAsked)
{
    public SweepCount Count => SweepCount.Of(Schools.Select(s => s.Word));
}

/// <summary>Reads how a marked area stands.</summary>
public sealed class SweepBoard(IDbContextFactory<HatcheryDb> databases, TimeProvider time)
{
    /// <summary>Null for a mark that is not of this programme.</summary>
    public async Task<SweepNow?> LoadAsync(Guid programmeId, Guid sweepId, CancellationToken cancel)
    {
        var now = time.GetUtcNow().UtcDateTime;
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (await db.AreaSweeps.AsNoTracking().SingleOrDefaultAsync(s => s.Id == sweepId && s.ProgrammeId == programmeId, cancel) is not { } sweep)
        {
            return null;
        }

        var replies = await db.SweepReplies.AsNoTracking().Where(r => r.SweepId == sweepId).ToListAsync(cancel);
        var teachers = await TeachersAsync(db, sweep, cancel);
        var people = replies.Select(r => r.PersonId).Append(sweep.MarkedBy).Append(sweep.EndedBy).OfType<Guid>().Distinct().ToList();
        var names = await db.Users.Where(p => people.Contains(p.Id)).ToDictionaryAsync(p => p.Id, p => p.Name, cancel);
        var letters = await db.OutgoingLetters.AsNoTracking().Where(l => l.Key.StartsWith(MessageTeachers.KeyOf(sweepId)))
            .Select(l => new LetterOfSweep(l.PersonId, l.State, l.WrittenAt, l.State == LetterState.Waiting && l.Attempts == 0 && l.NotBefore > now, l.Text)).ToListAsync(cancel);
        return new SweepNow(
            sweep,
            await MessageTeachers.MessageAsync(db, sweep, cancel),
            names.GetValueOrDefault(sweep.MarkedBy),
            sweep.EndedBy is { } by ? names.GetValueOrDefault(by) : null,
            now,
            await db.Programmes.Where(p => p.Id == programmeId).Select(p => p.ScreenUnit).SingleAsync(cancel),
            await SchoolsAsync(db, sweep, replies, names, now, cancel),
            [.. teachers.Select(t => new SweptTeacher(t.Name, t.School, t.Phone, t.Language, letters.FirstOrDefault(l => l.PersonId == t.Id)?.Link))],
            CountOf(letters),
            await MessageTeachers.NotYetAsked(db, sweep).Select(m => m.PersonId).Distinct().CountAsync(cancel));
    }

    private sealed record TeacherRow(Guid Id, string Name, string School, string? Phone, string Language);

    private sealed record LetterOfSweep(Guid? PersonId, LetterState State, DateTime WrittenAt, bool IsQuiet, string Text)
    {
        public string? Link => Text.Split('\n').Select(line => line.Trim())
            .FirstOrDefault(line => line.Contains($"/{ReplyAddresses.Path}/", StringComparison.Ordinal) && Uri.IsWellFormedUriString(line, UriKind.Absolute));
    }

    private static SweepLetters CountOf(List<LetterOfSweep> letters) => new(
        letters.Count,
        letters.Count(l => l.State is LetterState.Sent or LetterState.KeptAsFile),
        letters.Count(l => !l.IsQuiet && l.State is (LetterState.Waiting or LetterState.Sending)),
        letters.Count(l => l.IsQuiet),
        letters.Count(l => l.State is LetterState.GivenUp or LetterState.Unsure),
        letters.Min(l => (DateTime?)l.WrittenAt));

    private static async Task<List<TeacherRow>> TeachersAsync(HatcheryDb db, AreaSweep sweep, CancellationToken cancel) => await (
        from school in db.SchoolsUnder(sweep)
        join m in db.Memberships on school.Id equals m.SchoolId
        join p in db.Users on m.PersonId equals p.Id
        where m.Role == Role.Teacher
        orderby school.Name, p.Name
        select new TeacherRow(p.Id, p.Name, school.Name, p.PhoneNumber, p.Language)).AsNoTracking().ToListAsync(cancel);

    private static async Task<IReadOnlyList<SweptSchool>> SchoolsAsync(
        HatcheryDb db, AreaSweep sweep, List<SweepReply> replies, Dictionary<Guid, string> names, DateTime now, CancellationToken cancel)
    {
        var schools = await db.SchoolsUnder(sweep).AsNoTracking().ToListAsync(cancel);
        var tankIds = await db.OpenTanksOf(db.SchoolsUnder(sweep)).Select(t => t.Id).ToListAsync(cancel);
        var tanks = (await TankGlances.LoadAsync(db, tankIds, now, cancel)).ToLookup(t => t.Place.School.Id);
        return
        [
            .. schools.Select(school =>
            {
                var own = replies.Where(r => r.SchoolId == school.Id).ToList();
                var said = own.Where(r => r.Answer is not null || r.Note is not null).OrderByDescending(r => r.AnsweredAt ?? r.AskedAt)
                    .Select(r => new SweptAnswer(r.Answer, r.AnsweredAt, r.PersonId is { } by ? names.GetValueOrDefault(by, "a teacher") : null, r.Note));
                var left = tanks[school.Id].SelectMany(t => t.Flags).Select(f => f.Hazard.HoursLeftAt(now)).OfType<Band>().ToList();
                return new SweptSchool(
                    school, SchoolWord.Standing(own), [.. said], own.Count(r => r.PersonId is not null), [.. tanks[school.Id]],
                    left.Count == 0 ? null : left.MinBy(h => (h.Low, h.Mid)));
            })
            .OrderBy(s => s.Turn).ThenBy(s => s.HoursLeft?.Low ?? double.MaxValue).ThenBy(s => s.HoursLeft?.Mid).ThenByDescending(s => s.Flagged)
            .ThenBy(s => s.School.Name, StringComparer.CurrentCulture),
        ];
    }
}
