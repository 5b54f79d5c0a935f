using System.Text.RegularExpressions;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;
using Tankside.Hatchery.People;
using Tankside.Portal.Demo;
using Tankside.Portal.Tests;
using Tankside.Portal.Tests.Access;
using Tankside.Testing;

namespace Tankside.Browser.Tests;

/// <summary>
/// The pictures of the docs and the page that shows the look. With TANKSIDE_DOCS_PICTURES=1 the pictures are taken anew from the made-up season:
/// <c>TANKSIDE_DOCS_PICTURES=1 dotnet test tests/Tankside.Browser.Tests --filter DocsPictures</c>.
/// </summary>
public partial class DocsPicturesTests
{
    private static readonly string Docs = Path.Combine(Root(), "docs");

    /// <summary>What each picture shows: as whom, at which address, how wide; nobody's are class pages.</summary>
    private static readonly (string Name, Role? As, string Address, int Width)[] Shown =
    [
        ("round", Role.Coordinator, "/round", 1366),
        ("todays-reading", null, "/t/{label}", 360),
        ("teacher-home", Role.Teacher, "/", 1366),
        ("teacher-tank", Role.Teacher, "/tanks/{tank}", 1366),
        ("coordinator-home", Role.Coordinator, "/", 1366),
        ("lead-season", Role.ProgrammeLead, "/season", 1366),
        ("lead-totals", Role.ProgrammeLead, "/totals", 1366),
        ("kit", Role.KitHand, "/kit", 1366),
        ("agency", Role.AgencyContact, "/agency", 1366),
    ];

    [Fact]
    public void Every_picture_of_the_docs_can_be_taken_and_is_there()
    {
        var texts = Directory.EnumerateFiles(Docs, "*.md", SearchOption.AllDirectories).Append(Path.Combine(Root(), "README.md")).Select(File.ReadAllText);
        var asked = texts.SelectMany(t => Picture().Matches(t)).Select(m => m.Groups[1].Value).Distinct().Order(StringComparer.Ordinal);

        Assert.Equal(Shown.Select(s => s.Name).Order(StringComparer.Ordinal), asked);
        Assert.All(Shown, s => Assert.True(new FileInfo(FileOf(s.Name)).Length > 1000, s.Name));
        Assert.All(Shown, s => Assert.Contains(AddressTable.Rows, r => r.Address == s.Address && r.Expected(s.As is { } role ? Enum.Parse<Caller>($"{role}") : Caller.Nobody) == 'y'));
    }

    [BrowserFact]
    public async Task The_page_of_the_look_is_clean_in_each_look_and_uses_what_the_portal_uses()
    {
        await using var host = await BrowserHost.StartAsync();
        var css = await File.ReadAllTextAsync(Path.Combine(Root(), "src", "Tankside.Portal", "wwwroot", "css", "app.css"));
        var page = await host.PageAsync();
        await page.GotoAsync($"file://{Path.Combine(Docs, "design.html")}");
        var classes = await page.EvaluateAsync<string[]>("[...new Set([...document.querySelectorAll('[class]')].flatMap(e => [...e.classList]))]");

        Assert.Equal([], classes.Where(c => !css.Contains($".{c}", StringComparison.Ordinal)));
        foreach (var look in new[] { "light", "dark", "contrast" })
        {
            foreach (var width in new[] { 1366, 360 })
            {
                await page.SetViewportSizeAsync(width, 768);
                await page.EvaluateAsync("look => document.documentElement.dataset.look = look", look);
                Assert.Equal([], (await page.RunAxe()).Violations.SelectMany(v => v.Nodes.Select(n => $"{look} {width} {v.Id}: {n.Html}")));
                Assert.True(await page.EvaluateAsync<bool>("document.documentElement.scrollWidth <= innerWidth"), $"{look} runs off the side at {width}");
            }
        }

        await TakeAsync();
    }

    /// <summary>Takes every picture from the made-up season, where somebody asks for it.</summary>
    private static async Task TakeAsync()
    {
        if (Environment.GetEnvironmentVariable("TANKSIDE_DOCS_PICTURES") is null)
        {
            return;
        }

        await using var host = await BrowserHost.StartEmptyAsync(new PortalHostSettings { Environment = "Development", JudgeWorks = true });
        await using var db = host.Portal.OpenDb();
        await DemoSeason.SeedAsync(db, host.Portal.Now, CancellationToken.None);
        await host.Portal.SweepAsync();
        var teacher = db.Users.Where(u => u.Email == "teacher@alder-basin.example").Select(u => u.Id).Single();
        var school = db.Memberships.Single(m => m.PersonId == teacher).SchoolId;
        var tank = db.Tanks.First(t => t.ClosedAt == null && db.Classrooms.Any(r => r.Id == t.ClassroomId && r.SchoolId == school));
        var label = db.RoomCodes.First(c => c.TankId == tank.Id && c.RevokedAt == null).Code;
        foreach (var (name, role, address, width) in Shown)
        {
            var page = await host.PageAsync(width);
            if (role is { } signed)
            {
                await page.GotoAsync("/sign-in");
                await page.Locator("input[type=email]").FillAsync($"{Word(signed)}@alder-basin.example");
                await page.Locator("input[type=password]").FillAsync(AlderBasin.Password);
                await page.Locator("main button[type=submit]").ClickAsync();
                await page.ArrivesAtAsync("^(?!.*/sign-in)");
            }

            await page.GotoAsync(address.Replace("{tank}", tank.Code, StringComparison.Ordinal).Replace("{label}", label, StringComparison.Ordinal), new() { WaitUntil = WaitUntilState.NetworkIdle });
            await page.ScreenshotAsync(new() { Path = FileOf(name) });
        }
    }

    private static string Word(Role role) => role switch
    {
        Role.KitHand => "kit",
        Role.ProgrammeLead => "lead",
        Role.AgencyContact => "agency",
        _ => role.ToString().ToLowerInvariant(),
    };

    private static string FileOf(string name) => Path.Combine(Docs, "pictures", $"{name}.png");

    private static string Root()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "Program.sln")))
        {
            folder = folder.Parent ?? throw new InvalidOperationException("the tests run outside the project's tree");
        }

        return folder.FullName;
    }

    [GeneratedRegex(@"\((?:docs/)?pictures/([a-z-]+)\.png\)")]
    private static partial Regex Picture();
}
