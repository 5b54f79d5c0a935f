using System.IO.Compression;
using System.Text.RegularExpressions;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Storage;
using Tankside.Testing;
using UglyToad.PdfPig;

namespace Tankside.Portal.Tests.Access;

/// <summary>What stands in the answers of the address table: nobody reads there what is not theirs.</summary>
public partial class GivenAwayTests
{
    private static readonly AddressRow[] Read = [.. AddressTable.Rows.Where(r => r.Method == "GET")];

    /// <summary>Pages of a link that was mailed to somebody; they say to whom.</summary>
    private static readonly AddressRow[] WithoutMailedLinks =
        [.. Read.Where(r => r.Pattern is not ("/invitation/{Secret}" or "/reset-password/{PersonId:guid}" or "/sweep/{secret}/"))];

    [Fact]
    public void A_room_code_gets_at_every_address_but_its_own_what_nobody_gets() =>
        Assert.Equal(["/t/{code}/", "/t/{code}/tank", "/t/{code}/answer", "/t/{code}/help"], AddressTable.Rows
            .Where(r => r.Expected(Caller.RoomCode) != r.Expected(Caller.Nobody)).Select(r => r.Pattern).Distinct());

    [Fact]
    public async Task A_room_code_in_the_place_of_a_tanks_code_finds_nothing_for_anybody()
    {
        await using var callers = await Callers.GatherAsync(DatabaseKind.Sqlite);
        var tried = 0;
        foreach (var row in Read.Where(r => r.Pattern.Contains("{code}", StringComparison.OrdinalIgnoreCase) && !IsLabel(r) && !IsSheet(r)))
        {
            foreach (var caller in Enum.GetValues<Caller>().Where(c => row.Expected(c) is 'y' or '-'))
            {
                var label = callers.Fill(Regex.Replace(row.Address, "{(next-)?tank}", "{label}"));
                using var answer = await callers.TryAsync(caller, row, withToken: false, label);
                Assert.Equal($"{row} as {caller}: -", $"{row} as {caller}: {Callers.Letter(answer)}");
                tried++;
            }
        }

        Assert.True(tried > 40, $"only {tried} were tried");
    }

    [Fact]
    public async Task A_room_code_that_was_revoked_opens_nothing()
    {
        await using var callers = await Callers.GatherAsync(DatabaseKind.Sqlite);
        await using (var db = callers.Host.OpenDb())
        {
            await db.RoomCodes.ExecuteUpdateAsync(set => set.SetProperty(c => c.RevokedAt, TestWorld.Now));
        }

        foreach (var row in AddressTable.Rows.Where(IsLabel))
        {
            using var answer = await callers.TryAsync(Caller.RoomCode, row, withToken: true);
            Assert.Equal($"{row}: -", $"{row}: {Callers.Letter(answer)}");
        }
    }

    [Theory, BothDatabases]
    public async Task No_answer_to_the_agency_or_to_a_class_names_a_person(DatabaseKind kind)
    {
        await using var callers = await Callers.GatherAsync(kind);
        var told = new List<string>();
        // What somebody reads of themselves on their own page is no secret to them; who that is, MyPageTests look at.
        foreach (var row in WithoutMailedLinks.Where(r => r.Pattern is not ("/me" or "/me/data" or "/me/data.json")))
        {
            foreach (var caller in new[] { Caller.AgencyContact, Caller.RoomCode, Caller.Nobody })
            {
                var text = await ReadAsync(callers, caller, row);
                told.AddRange(callers.Personal.Where(p => text.Contains(p, StringComparison.OrdinalIgnoreCase)).Select(p => $"{row} as {caller}: {p}"));
                told.AddRange(MailOrNumber().Matches(text).Select(m => $"{row} as {caller}: {m.Value}"));
            }
        }

        Assert.Empty(told);
        // Where people are known by name, the same search does find them.
        Assert.Contains("Quill-", await ReadAsync(callers, Caller.ProgrammeLead, Read.Single(r => r.Pattern == "/people")), StringComparison.Ordinal);
        Assert.Contains("555-01", await ReadAsync(callers, Caller.Teacher, Read.Single(r => r.Pattern == "/ledger/{Code}")), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task Nothing_of_the_other_programme_or_school_stands_in_any_answer(DatabaseKind kind)
    {
        await using var callers = await Callers.GatherAsync(kind);
        var told = new List<string>();
        foreach (var (caller, marks) in Foreign(callers.World))
        {
            // A calendar's feed shows whoever has its secret what its maker may see; that is the coordinator here.
            foreach (var row in WithoutMailedLinks.Where(r => !IsLabel(r) && !r.Pattern.EndsWith(".ics", StringComparison.Ordinal) && r.Expected(caller) == 'y'))
            {
                var text = await ReadAsync(callers, caller, row);
                told.AddRange(marks.Where(m => text.Contains(m, StringComparison.Ordinal)).Select(m => $"{row} as {caller}: {m}"));
            }
        }

        Assert.Empty(told);
        var tanks = await ReadAsync(callers, Caller.Coordinator, Read.Single(r => r.Pattern == "/tanks"));
        Assert.All(callers.World.One.Tanks, t => Assert.Contains(t.Code, tanks, StringComparison.Ordinal));
    }

    /// <summary>Words that a caller must never read: tanks, programme, school and people of the others.</summary>
    private static IEnumerable<(Caller Caller, string[] Marks)> Foreign(TestWorld world)
    {
        var (one, two) = (MarksOf(world.One), MarksOf(world.Two));
        var (own, next) = (world.One.Tanks[0].Code, world.One.Tanks[1].Code);
        yield return (Caller.Teacher, [.. two, next, world.One.Schools[1].Name, "Oriel Nextdoor"]);
        yield return (Caller.TeacherOfOtherSchool, [.. two, own, world.One.Schools[0].Name, world.One.EmailOf(Role.Teacher)]);
        yield return (Caller.Coordinator, two);
        yield return (Caller.KitHand, two);
        yield return (Caller.ProgrammeLead, two);
        yield return (Caller.AgencyContact, two);
        yield return (Caller.LoggerKey, [.. two, next]);
        yield return (Caller.CoordinatorKey, two);
        yield return (Caller.LeadOfOtherProgramme, one);
        yield return (Caller.CoordinatorKeyOfOtherProgramme, one);
        yield return (Caller.Nobody, [.. one, .. two]);
        yield return (Caller.RoomCode, [.. one, .. two]);
    }

    private static string[] MarksOf(TestProgramme programme) =>
    [
        programme.Programme.Name,
        .. programme.Tanks.Select(t => t.Code),
        .. programme.Schools.Select(s => s.Id.ToString()),
        .. programme.People.Values.SelectMany(p => new[] { p.Name, p.Email!, p.Id.ToString() }),
    ];

    /// <summary>Opened by a code of its own, which is in the place of the tank's already.</summary>
    private static bool IsSheet(AddressRow row) => row.Address.StartsWith("/run/{run-code}", StringComparison.Ordinal);

    private static bool IsLabel(AddressRow row) => row.Pattern.StartsWith("/t/{code}", StringComparison.Ordinal);

    /// <summary>The answer without its sealed parts, in whose letters anything may stand by chance.</summary>
    private static async Task<string> ReadAsync(Callers callers, Caller caller, AddressRow row)
    {
        using var answer = await callers.TryAsync(caller, row, withToken: false);
        return Sealed().Replace(await TextAsync(answer.Content), "");
    }

    /// <summary>A packed file is read as whoever opens it does: in its packing anything may stand by chance, and what is in it would be missed.</summary>
    private static async Task<string> TextAsync(HttpContent content)
    {
        switch (content.Headers.ContentType?.MediaType)
        {
            case "application/pdf":
                using (var pdf = PdfDocument.Open(await content.ReadAsByteArrayAsync()))
                {
                    return string.Join(' ', pdf.GetPages().SelectMany(p => p.GetWords()).Select(w => w.Text));
                }

            case "application/zip" or "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet":
                using (var zip = new ZipArchive(await content.ReadAsStreamAsync()))
                {
                    return string.Join(' ', zip.Entries.Select(e => new StreamReader(e.Open()).ReadToEnd()));
                }

            default:
                return await content.ReadAsStringAsync();
        }
    }

    [GeneratedRegex("CfDJ8[\\w+/=-]*|nonce=\"[^\"]*\"|\"integrity\":\\{[^}]*\\}")]
    private static partial Regex Sealed();

    [GeneratedRegex("[\\w.-]+@[\\w-]+\\.[a-z]{2,}|tel:|\\b\\(?\\d{3}\\)?[ -]\\d{3}[ -]\\d{4}\\b")]
    private static partial Regex MailOrNumber();
}
