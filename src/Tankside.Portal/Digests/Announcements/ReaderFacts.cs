using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Releases.Bookings;
using Tankside.Portal.Flags;
using Tankside.Portal.Flags.HatchCalendar;
using Tankside.Storage;
using Tankside.Storage.People;

namespace Tankside.Portal.Digests.Announcements;

/// <summary>One reader's values for the placeholders, as they are now.</summary>
public sealed record ReaderFacts(string Name, string? School, Person? Writer)
{
    public IReadOnlyList<string> Tanks { get; init; } = [];

    public IReadOnlyList<CalendarTank> WithFish { get; init; } = [];

    public DateOnly? DeliveryOn { get; init; }

    public DateOnly? ReleaseOn { get; init; }

    /// <summary>Null where there is none.</summary>
    public string? Value(Placeholder of, string language)
    {
        var value = of switch
        {
            _ when of == Placeholders.Name => Name,
            _ when of == Placeholders.School => School,
            _ when of == Placeholders.Tank => string.Join(", ", Tanks),
            _ when of == Placeholders.Stage => Each(t => t.Glance.Place.Names.In(StageOf(t.Glance.Development!.Stage, language), language)),
            _ when of == Placeholders.Hatch => Each(t => t.Hatch is { } hatch ? HatchOf(hatch, language) : null),
            _ when of == Placeholders.Delivery => DeliveryOn is { } day ? Day(day, language) : null,
            _ when of == Placeholders.Release => ReleaseOn is { } day ? Day(day, language) : null,
            _ when of == Placeholders.Coordinator => Writer?.Name,
            _ when of == Placeholders.Telephone => Writer?.PhoneNumber,
            _ => null,
        };
        return string.IsNullOrWhiteSpace(value) ? null : value;
    }

    /// <summary>With one tank its value alone, with several "A001: eggs; A002: alevins".</summary>
    private string Each(Func<CalendarTank, string?> of)
    {
        var values = WithFish.Select(t => (t.Code, Value: of(t))).Where(t => t.Value is not null).ToList();
        return Tanks.Count == 1 && values is [var only] ? only.Value! : string.Join("; ", values.Select(v => $"{v.Code}: {v.Value}"));
    }

    private static string StageOf(LifeStage stage, string language) => (stage, language) switch
    {
        (LifeStage.Egg, "es") => "huevos",
        (LifeStage.Alevin, "es") => "alevines",
        (LifeStage.Fry, "es") => "crías",
        _ => ReasonWords.Stage(stage),
    };

    private static string HatchOf(Hatchery.Flags.StageOnCalendar hatch, string language) => hatch.SeenOn is { } seen
        ? (language == "es" ? $"visto el {Day(seen, language)}" : $"seen on {Day(seen, language)}")
        : (language == "es" ? $"del {Day(hatch.Forecast.Low80, language)} al {Day(hatch.Forecast.High80, language)}"
            : $"{Day(hatch.Forecast.Low80, language)} to {Day(hatch.Forecast.High80, language)}");

    private static string Day(DateOnly day, string language) => language == "es"
        ? day.ToString("dddd d 'de' MMMM", CultureInfo.GetCultureInfo("es"))
        : day.ToString("dddd d MMMM", CultureInfo.InvariantCulture);
}

/// <summary>Looks up the readers' values: a fixed number of queries, however many readers.</summary>
public sealed class FactsOfReaders(CalendarTanks calendar)
{
    public async Task<IReadOnlyDictionary<Guid, ReaderFacts>> LoadAsync(
        HatcheryDb db, Guid programmeId, Guid writer, IReadOnlyList<Guid> readers, DateTime now, CancellationToken cancel)
    {
        var people = await (
            from person in db.Users.AsNoTracking()
            join member in db.Memberships on person.Id equals member.PersonId
            where member.ProgrammeId == programmeId && readers.Contains(person.Id)
            select new { person.Id, person.Name, member.SchoolId }).ToListAsync(cancel);
        var schools = people.Select(p => p.SchoolId).OfType<Guid>().Distinct().ToList();
        var names = await db.Schools.Where(s => schools.Contains(s.Id)).ToDictionaryAsync(s => s.Id, s => s.Name, cancel);
        var open = await (
            from tank in db.Tanks
            join room in db.Classrooms on tank.ClassroomId equals room.Id
            where tank.ProgrammeId == programmeId && tank.ClosedAt == null && schools.Contains(room.SchoolId)
            orderby tank.Code
            select new { tank.Id, tank.Code, room.SchoolId }).ToListAsync(cancel);
        var ids = open.Select(t => t.Id).ToList();
        var shown = await calendar.LoadAsync(db, db.Tanks.AsNoTracking().Where(t => ids.Contains(t.Id)), programmeId, cancel);
        var today = shown.Clock.Day(now);
        var deliveries = await db.Allotments.Where(a => ids.Contains(a.TankId) && a.DeliveryOn >= today).Select(a => new { a.TankId, a.DeliveryOn }).ToListAsync(cancel);
        var releases = await db.ReleaseBookings.Where(b => schools.Contains(b.SchoolId) && b.State == BookingState.Settled && b.On >= today)
            .Select(b => new { b.SchoolId, b.On }).ToListAsync(cancel);
        var by = await db.Users.AsNoTracking().SingleOrDefaultAsync(p => p.Id == writer, cancel);
        return people.DistinctBy(p => p.Id).ToDictionary(p => p.Id, p =>
        {
            var tanks = open.Where(t => t.SchoolId == p.SchoolId).ToList();
            return new ReaderFacts(p.Name, p.SchoolId is { } school ? names.GetValueOrDefault(school) : null, by)
            {
                Tanks = [.. tanks.Select(t => t.Code)],
                WithFish = [.. shown.Tanks.Where(t => t.Glance.Place.School.Id == p.SchoolId)],
                DeliveryOn = deliveries.Where(d => tanks.Exists(t => t.Id == d.TankId)).Select(d => (DateOnly?)d.DeliveryOn).Min(),
                ReleaseOn = releases.Where(r => r.SchoolId == p.SchoolId).Select(r => r.On).Min(),
            };
        });
    }
}
