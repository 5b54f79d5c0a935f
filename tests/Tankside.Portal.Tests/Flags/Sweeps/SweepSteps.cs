using System.Text.RegularExpressions;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Releases;
using Tankside.Storage.People;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Flags.Sweeps;

/// <summary>What the tests of marked areas do again and again.</summary>
internal static partial class SweepSteps
{
    public static readonly string PowerCut = nameof(SweepReason.PowerCut), Snow = nameof(SweepReason.Snow);

    /// <summary>Marks an area by the page and gives the address of its board.</summary>
    public static async Task<string> MarkAsync(this HttpClient client, string area, string reason, params (string Field, string Value)[] more)
    {
        var answer = await client.PostFormAsync("/sweeps", Fields(area, reason, more), "mark");
        Assert.NotNull(answer.Headers.Location);
        return answer.Headers.Location.ToString().Split('#')[0].Replace("http://localhost", "", StringComparison.Ordinal);
    }

    public static Dictionary<string, string> Fields(string area, string reason, params (string Field, string Value)[] more)
    {
        var fields = new Dictionary<string, string> { ["Input.Area"] = area, ["Input.Reason"] = reason };
        foreach (var (field, value) in more)
        {
            fields[field] = value;
        }

        return fields;
    }

    /// <summary>Presses a button of the board.</summary>
    public static async Task PressAsync(this HttpClient client, string board, string form, params (string Field, string Value)[] fields)
    {
        using var answer = await client.PostFormAsync(board, fields.ToDictionary(f => f.Field, f => f.Value), form);
        Assert.NotNull(answer.Headers.Location);
    }

    public static async Task<List<OutgoingLetter>> LettersAsync(this PortalHost host)
    {
        await using var db = host.OpenDb();
        return await db.OutgoingLetters.AsNoTracking().OrderBy(l => l.To).ToListAsync();
    }

    /// <summary>The link in a letter, as an address of the portal.</summary>
    public static string LinkIn(OutgoingLetter letter) => $"/sweep/{LinkLine().Match(letter.Text).Groups[1].Value}";

    /// <summary>A mark over the north with its letters sent, and the teacher's link.</summary>
    public static async Task<(string Board, string Link)> MarkedAndAskedAsync(this PortalHost host, HttpClient coordinator, string reason)
    {
        var board = await coordinator.MarkAsync("north", reason);
        await coordinator.PressAsync(board, "message");
        return (board, LinkIn(Assert.Single(await host.LettersAsync())));
    }

    public static Task<HttpResponseMessage> AnswerAsync(this HttpClient anybody, string link, params (string Field, string Value)[] fields) =>
        anybody.PostAsync(link, new FormUrlEncodedContent(fields.Select(f => KeyValuePair.Create(f.Field, f.Value))));

    public static Person NewTeacher(string name, string email, string language, string? phone = null) => new()
    {
        Id = Guid.NewGuid(),
        Name = name,
        UserName = email,
        NormalizedUserName = email.ToUpperInvariant(),
        Email = email,
        NormalizedEmail = email.ToUpperInvariant(),
        Language = language,
        PhoneNumber = phone,
        SecurityStamp = Guid.NewGuid().ToString("n"),
    };

    public static Membership TeachesAt(Person person, School school) =>
        new() { Id = Guid.NewGuid(), PersonId = person.Id, ProgrammeId = school.ProgrammeId, Role = Role.Teacher, SchoolId = school.Id };

    /// <summary>More tanks with eggs, each in a school of its own in the north.</summary>
    public static async Task<IReadOnlyList<Tank>> AddTanksAsync(this PortalHost host, TestProgramme one, int count)
    {
        var tanks = new List<Tank>();
        await host.SeedAsync(db =>
        {
            for (var i = 0; i < count; i++)
            {
                var school = new School { Id = Guid.NewGuid(), ProgrammeId = one.Programme.Id, Name = $"School {i:00}", Area = "north" };
                var room = new Classroom { Id = Guid.NewGuid(), SchoolId = school.Id, Name = "Room 9" };
                var tank = new Tank { Id = Guid.NewGuid(), ProgrammeId = one.Programme.Id, ClassroomId = room.Id, Code = $"N{i:000}", Litres = 208, SetPointC = 10.5 };
                tanks.Add(tank);
                db.AddRange(school, room, tank);
                db.Add(new Receipt
                {
                    Id = Guid.NewGuid(),
                    SeasonId = one.Season.Id,
                    TankId = tank.Id,
                    LotId = one.Lot.Id,
                    At = TestProgramme.DeliveredAt,
                    Run = "R1",
                    Eggs = 150,
                });
                db.Add(new LedgerEntry
                {
                    SeasonId = one.Season.Id,
                    TankId = tank.Id,
                    Kind = LedgerKind.Received,
                    Count = 150,
                    At = TestProgramme.DeliveredAt,
                    EnteredAt = TestProgramme.DeliveredAt,
                });
            }
        });
        return tanks;
    }

    [GeneratedRegex("/sweep/([\\w-]+)")]
    private static partial Regex LinkLine();
}
