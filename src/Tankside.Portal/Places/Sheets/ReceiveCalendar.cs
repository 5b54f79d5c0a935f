using System.Text;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell;
using Tankside.Portal.Shell.Sheets;
using Tankside.Storage;

namespace Tankside.Portal.Places.Sheets;

/// <summary>
/// Takes a calendar file in as a sheet of closures, one row an event, so that it is looked at, ticked, stored and taken back as every other
/// sheet is. The file itself is not kept.
/// </summary>
public sealed class ReceiveCalendar(IDbContextFactory<HatcheryDb> databases, TimeProvider time)
{
    private static readonly string[] Titles = ["school", "first day", "last day", "why"], Meanings = ["school", "first", "last", "why"];

    private static readonly string[] ShutWords =
    [
        "no school*", "no classes", "no class", "closed", "closure*", "holiday*", "break", "recess", "vacation*", "day off", "thanksgiving", "christmas", "new year*", "memorial day", "labor day",
        "professional development", "in service", "inservice", "teacher work*", "staff day", "non instructional", "snow day", "no hay clases", "vacaciones", "feriado", "receso",
    ];

    /// <summary>Ticked beforehand: what by its words shuts a school, not the picture day.</summary>
    public static bool LooksShut(string reason)
    {
        var words = Headings.Plain(reason);
        return ShutWords.Any(w => Headings.Has(words, w));
    }

    /// <summary>Null when the file was not taken; <paramref name="refuse"/> has been told why.</summary>
    /// <param name="id">The form's own id, so that sending it twice is sending it once.</param>
    /// <param name="school">Null for every school of the programme.</param>
    public async Task<Guid?> HandleAsync(CurrentUser user, Guid id, string fileName, byte[] content, Guid? school, Action<string> refuse, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (await db.PlaceImportsOf(user).AnyAsync(i => i.Id == id, cancel))
        {
            return id;
        }

        var name = school is null ? "all" : await db.Schools.Where(s => s.Id == school && s.ProgrammeId == user.ProgrammeId).Select(s => s.Name).SingleOrDefaultAsync(cancel);
        if (name is null)
        {
            refuse("This school was taken out meanwhile. Nothing was stored.");
            return null;
        }

        var now = Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);
        var (from, to) = await SpanAsync(db, user.ProgrammeId, now, cancel);
        try
        {
            var read = CalendarFile.Read(Encoding.UTF8.GetString(content), from, to);
            if (read.Days.Count == 0)
            {
                refuse($"No event of whole days lies between {FieldReads.Of(from)} and {FieldReads.Of(to)}, the days of your seasons from now on. {Left(read)} Nothing was stored.");
                return null;
            }

            db.Add(New(user, id, fileName, now, $"{read.Days.Count} events of whole days between {FieldReads.Of(from)} and {FieldReads.Of(to)}. {Left(read)}"));
            var rows = read.Days.Select((d, i) => new SheetRow(i + 1, [name, FieldReads.Of(d.First), FieldReads.Of(d.Last), d.Reason])).ToList();
            db.Add(new PlaceImportSheet { ImportId = id, Content = JsonSerializer.SerializeToUtf8Bytes(rows) });
            await db.SaveChangesAsync(cancel);
        }
        catch (NoCalendarException e)
        {
            refuse($"{e.Message} Nothing was stored.");
            return null;
        }
        catch (DbUpdateException e) when (e.IsUniqueViolation())
        {
            // The same form came twice at the same time; the other one has stored it.
        }

        return id;
    }

    private static PlaceImport New(CurrentUser user, Guid id, string fileName, DateTime now, string howRead) => new()
    {
        Id = id,
        ProgrammeId = user.ProgrammeId,
        FileName = SheetTexts.FileName(fileName),
        Holds = PlaceSheet.Closures,
        SentBy = user.PersonId,
        SentAt = now,
        Columns = new PlaceColumns { HowRead = howRead, Titles = Titles, Meanings = Meanings, Order = DateOrder.MonthFirst, IsCalendar = true }.ToJson(),
    };

    /// <summary>From the first day of the season under way, or today, to the end of the last; a year where there is none.</summary>
    private static async Task<(DateOnly From, DateOnly To)> SpanAsync(HatcheryDb db, Guid programmeId, DateTime now, CancellationToken cancel)
    {
        var today = ProgrammeClock.Of(await db.Programmes.Where(p => p.Id == programmeId).Select(p => p.TimeZone).SingleAsync(cancel)).Day(now);
        var seasons = await db.Seasons.Where(s => s.ProgrammeId == programmeId && s.EndsOn >= today).Select(s => new { s.StartsOn, s.EndsOn }).ToListAsync(cancel);
        return seasons.Count == 0 ? (today, today.AddYears(1)) : (seasons.Min(s => s.StartsOn), seasons.Max(s => s.EndsOn));
    }

    private static string Left(CalendarRead read)
    {
        List<string> parts = [];
        Add(read.Timed, "with a time of day");
        Add(read.Outside, "outside those days");
        Add(read.Twice, "that stood there twice");
        Add(read.Unread, "repeating by a rule that is not one of days or from too long ago, or lasting longer than any closure");
        return parts.Count == 0 ? "" : $"Left out: {string.Join(", ", parts)}.";

        void Add(int count, string what)
        {
            if (count > 0)
            {
                parts.Add($"{count} {what}");
            }
        }
    }
}
