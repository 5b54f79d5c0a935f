using System.Net;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Portal.Tests.Shell;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Readings;

/// <summary>The week's sheet at the tank, filled in by hand.</summary>
public class WallSheetTests
{
    private const string Week = "/tanks/A001/wall-sheet.pdf?week=2027-02-17";

    [Theory]
    [InlineData("a4", 842, 595)]
    [InlineData("letter", 792, 612)]
    public async Task A_week_is_one_page_with_its_days_its_questions_and_the_label(string paper, int width, int height)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;

        var page = Assert.Single((await PrintedPdf.GetAsync(await host.ClientAs(Role.Teacher, world.One), $"{Week}&paper={paper}&lang=en")).Pages);

        Assert.Equal((width, height), ((int)Math.Round(page.Width), (int)Math.Round(page.Height)));
        Assert.Contains("Week of Monday 15 February 2027", page.Text, StringComparison.Ordinal);
        Assert.Contains("Birch Lane School, Room 1", page.Text, StringComparison.Ordinal);
        foreach (var day in new[] { "Monday", "Tuesday", "Wednesday", "Thursday", "Friday" })
        {
            Assert.Contains(day, page.Text, StringComparison.Ordinal);
        }

        Assert.Equal((5, 5), (page.Words.Count(w => w.Text == "°F"), page.Words.Count(w => w.Text == "°C")));
        // Five days, five questions of yes or no.
        Assert.Equal(25, page.Words.Count(w => w.Text == "Yes"));
        Assert.Contains("Plugs and cords are for adults.", page.Text, StringComparison.Ordinal);
        Assert.Equal([$"{PortalHost.PublicUrl}t/{world.One.RoomCodes[0].Code}"], page.Codes);
        Assert.Contains(RoomCodes.Grouped(world.One.RoomCodes[0].Code), page.Text, StringComparison.Ordinal);
        Assert.All(page.Words, w => Assert.True(w.Left > 28 && w.Right < page.Width - 28 && w.Bottom < page.Height - 20, $"{w} leaves the sheet"));
    }

    [Theory, BothDatabases]
    public async Task The_closed_days_of_the_school_are_struck_and_ask_for_nothing(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        await host.SeedAsync(db => db.AddRange(
            Closed(world.One, null, 15, "Presidents’ Day"), Closed(world.One, world.One.Schools[0].Id, 19, "Teachers’ day"),
            Closed(world.One, world.One.Schools[1].Id, 17, "Boiler"), Closed(world.Two, null, 18, "Ours")));
        var teacher = await host.ClientAs(Role.Teacher, world.One);

        var page = (await PrintedPdf.GetAsync(teacher, Week + "&lang=en")).Pages[0];
        var next = (await PrintedPdf.GetAsync(teacher, "/tanks/A001/wall-sheet.pdf?week=2027-02-22&lang=en")).Pages[0];

        Assert.Contains("School closed School closed", Sorted(page), StringComparison.Ordinal);
        Assert.Contains("Presidents’ Day", page.Text, StringComparison.Ordinal);
        Assert.Contains("Teachers’ day", page.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("Boiler", page.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("Ours", page.Text, StringComparison.Ordinal);
        Assert.Equal((3, 15), (page.Words.Count(w => w.Text == "°F"), page.Words.Count(w => w.Text == "Yes")));
        Assert.DoesNotContain("closed", next.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task It_speaks_Spanish_when_asked_or_when_the_browser_does()
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        var teacher = await host.ClientAs(Role.Teacher, world.One);

        var asked = await PrintedPdf.GetAsync(teacher, Week + "&lang=es");
        teacher.DefaultRequestHeaders.Add("Accept-Language", "es-MX,es;q=0.9");
        var liked = await PrintedPdf.GetAsync(teacher, Week);

        Assert.Equal(asked.Text, liked.Text);
        Assert.Equal("A001: nuestro tanque esta semana", asked.Title);
        Assert.Contains("Semana del lunes 15 de febrero de 2027", asked.Text, StringComparison.Ordinal);
        Assert.Contains("miércoles", asked.Text, StringComparison.Ordinal);
        Assert.Contains("Los enchufes y los cables son para los adultos.", asked.Text, StringComparison.Ordinal);
        Assert.Equal(25, asked.Pages[0].Words.Count(w => w.Text == "Sí"));
    }

    [Fact]
    public async Task Without_a_week_it_is_this_one_and_from_Saturday_on_the_next()
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        var teacher = await host.ClientAs(Role.Teacher, world.One);

        var wednesday = await PrintedPdf.GetAsync(teacher, "/tanks/A001/wall-sheet.pdf?lang=en");
        host.Time.Advance(TimeSpan.FromDays(3));
        var saturday = await PrintedPdf.GetAsync(teacher, "/tanks/A001/wall-sheet.pdf?lang=en");

        Assert.Contains("Week of Monday 1 February 2027", wednesday.Text, StringComparison.Ordinal);
        Assert.Contains("Week of Monday 8 February 2027", saturday.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Who_must_not_have_the_code_gets_a_sheet_with_room_for_the_label()
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;

        var sheet = await PrintedPdf.GetAsync(await host.ClientAs(Role.KitHand, world.One), Week + "&lang=en");

        Assert.Empty(sheet.Codes);
        Assert.DoesNotContain(RoomCodes.Grouped(world.One.RoomCodes[0].Code), sheet.Text, StringComparison.Ordinal);
        Assert.Contains("Put the label of this tank here", sheet.Text, StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task A_tank_whose_code_was_revoked_gets_a_sheet_with_room_for_the_new_label(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        await using (var db = host.OpenDb())
        {
            await db.RoomCodes.ExecuteUpdateAsync(set => set.SetProperty(c => c.RevokedAt, host.Now));
        }

        Assert.Empty((await PrintedPdf.GetAsync(await host.ClientAs(Role.Teacher, world.One), Week)).Codes);
    }

    [Theory]
    [InlineData("week=last", "week=2026-11-30")]
    [InlineData("lang=de", "lang=en or lang=es")]
    [InlineData("paper=a3", "paper=a4 or paper=letter")]
    public async Task A_wish_that_it_does_not_know_is_told(string wish, string told)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;

        var answer = await (await host.ClientAs(Role.Teacher, world.One)).GetAsync($"/tanks/A001/wall-sheet.pdf?{wish}");

        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Contains(told, await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    private static string Sorted(PrintedPage page) =>
        string.Join(' ', page.Words.Where(w => w.Text is "School" or "closed").OrderBy(w => w.Left).Select(w => w.Text));

    private static Closure Closed(TestProgramme programme, Guid? school, int day, string why) => new()
    {
        Id = Guid.NewGuid(),
        ProgrammeId = programme.Programme.Id,
        SchoolId = school,
        FirstDay = new(2027, 2, day),
        LastDay = new(2027, 2, day),
        Reason = why,
    };
}
