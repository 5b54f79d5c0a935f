using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Kit;
using Tankside.Hatchery.People;
using Tankside.Storage;
using Tankside.Storage.People;

namespace Tankside.Portal.Demo;

/// <summary>
/// Seeds the Alder Basin programme: forty-eight classrooms, three lots, a season in progress on the day it is seeded, with each kind of
/// trouble there at least once and most tanks well. The same day gives the same season.
/// </summary>
public static class DemoSeason
{
    /// <summary>Writes the season as one transaction.</summary>
    public static async Task SeedAsync(HatcheryDb db, DateTime now, CancellationToken cancel)
    {
        var clock = ProgrammeClock.Of(AlderBasin.TimeZone);
        var today = clock.Day(now);
        var dice = new DemoDice(today.DayNumber);
        await using var transaction = await db.Database.BeginTransactionAsync(cancel);
        var basin = DemoPlaces.Build(dice, today);
        db.AddRange(basin.Rows);
        AddPeople(db, basin, dice);
        var runs = DemoRuns.Build(basin, today);
        db.AddRange(runs.Rows);
        DemoReadings.Add(db, basin, runs, dice, now);
        DemoBookings.Add(db, basin, dice, now);
        await db.SaveChangesAsync(cancel);
        await transaction.CommitAsync(cancel);
    }

    private static void AddPeople(HatcheryDb db, DemoBasin basin, DemoDice dice)
    {
        var hasher = new PasswordHasher<Person>();
        (string Name, string Mail, Role Role)[] people =
        [
            ("Ines Okafor", "coordinator", Role.Coordinator),
            ("Tom Lindqvist", "coordinator2", Role.Coordinator),
            ("Ruth Alvarado", "lead", Role.ProgrammeLead),
            ("Dana Whitefeather", "teacher", Role.Teacher),
            ("Sam Petrov", "kit", Role.KitHand),
            ("Lee Marchetti", "agency", Role.AgencyContact),
        ];
        foreach (var (name, mail, role) in people)
        {
            var address = mail + "@alder-basin.example";
            var person = new Person
            {
                Id = dice.Id(),
                Name = name,
                UserName = address,
                NormalizedUserName = address.ToUpperInvariant(),
                Email = address,
                NormalizedEmail = address.ToUpperInvariant(),
                EmailConfirmed = true,
                PhoneNumber = role == Role.Teacher ? "555-0147" : null,
                IsDemo = true,
                LockoutEnabled = true,
                SecurityStamp = dice.Id().ToString("N"),
                ConcurrencyStamp = dice.Id().ToString("N"),
            };
            person.PasswordHash = hasher.HashPassword(person, AlderBasin.Password);
            db.Users.Add(person);
            db.Memberships.Add(new Membership
            {
                Id = dice.Id(),
                PersonId = person.Id,
                ProgrammeId = basin.Programme.Id,
                Role = role,
                SchoolId = role == Role.Teacher ? basin.Schools[0].Id : null,
            });
            if (role == Role.KitHand)
            {
                basin.Rows.OfType<KitDepot>().Single(d => d.Name == DemoKit.Shed).HolderId = person.Id;
            }
        }
    }

    /// <summary>The lines that let somebody in: only for a demo database, only in Development.</summary>
    public static async Task PrintAsync(IServiceProvider services, Uri address, TextWriter output, CancellationToken cancel)
    {
        await using var db = await services.GetRequiredService<IDbContextFactory<HatcheryDb>>().CreateDbContextAsync(cancel);
        if (!await db.Users.AnyAsync(p => p.IsDemo, cancel))
        {
            return;
        }

        var codes = await (
            from code in db.RoomCodes
            join tank in db.Tanks on code.TankId equals tank.Id
            where code.RevokedAt == null
            orderby tank.Code
            select new { tank.Code, Room = code.Code }).ToListAsync(cancel);
        foreach (var code in codes)
        {
            await output.WriteLineAsync($"demo room code: {code.Code} {address}t/{code.Room}");
        }

        await PrintPeopleAsync(services, output, cancel);
    }

    /// <summary>One line for each made-up person.</summary>
    public static async Task PrintPeopleAsync(IServiceProvider services, TextWriter output, CancellationToken cancel)
    {
        await using var db = await services.GetRequiredService<IDbContextFactory<HatcheryDb>>().CreateDbContextAsync(cancel);
        var people = await (
            from person in db.Users
            join membership in db.Memberships on person.Id equals membership.PersonId
            where person.IsDemo
            select new { person.Email, membership.Role }).ToListAsync(cancel);
        foreach (var person in people.OrderBy(p => p.Role).ThenBy(p => p.Email, StringComparer.Ordinal))
        {
            await output.WriteLineAsync($"demo sign-in: {RoleName(person.Role)} {person.Email} {AlderBasin.Password}");
        }

        await output.FlushAsync(cancel);
    }

    private static string RoleName(Role role) => role switch
    {
        Role.Teacher => "teacher",
        Role.Coordinator => "coordinator",
        Role.KitHand => "kit-hand",
        Role.ProgrammeLead => "programme-lead",
        Role.AgencyContact => "agency-contact",
    };
}
