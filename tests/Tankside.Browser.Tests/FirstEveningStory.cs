using System.Globalization;
using System.Text;
using Microsoft.EntityFrameworkCore;
using Microsoft.Playwright;
using Tankside.Portal.Accounts;
using Tankside.Portal.Tests;
using Tankside.Portal.Tests.Accounts;
using Tankside.Testing;

namespace Tankside.Browser.Tests;

/// <summary>
/// From an empty database to the first reading of a class: a hundred rooms out of three sheets, as a lead does it who has read nothing. What
/// it takes in clicks and typed fields is what docs/first-evening.md says.
/// </summary>
public class FirstEveningStory
{
    private const int Rooms = 100, RoomsASchool = 4, Schools = Rooms / RoomsASchool;

    [BrowserFact]
    public async Task A_new_programme_of_a_hundred_rooms_comes_to_its_first_reading()
    {
        var mail = new MailSink();
        await using var host = await BrowserHost.StartEmptyAsync(new PortalHostSettings { Services = mail.AddTo });
        var lead = new CountedPage(await host.PageAsync());
        await SetUpAsync(host, lead);
        await SeasonAsync(lead);
        await BringInAsync(lead, "schools.csv", SchoolRows(), Schools);
        await BringInAsync(lead, "rooms.csv", RoomRows(), Rooms);
        await BringInAsync(lead, "people.csv", PeopleRows(), Schools);
        await host.Portal.SendLettersAsync();
        var secret = await LabelAsync(host, lead);

        var teacher = new CountedPage(await host.PageAsync());
        await AcceptAsync(teacher, MailSink.PathIn(await mail.NextAsync()));
        var @class = new CountedPage(await host.PageAsync(width: 360, withScripts: false));
        await ReadAsync(@class, secret);

        await lead.Page.GotoAsync("/season/steps");
        await Assertions.Expect(lead.Page.Locator("tr:has-text('First reading')")).ToContainTextAsync("✓ done");
        await Assertions.Expect(lead.Page.Locator("tr:has-text('Labels')")).ToContainTextAsync("100 of 100 open tanks");
        await Assertions.Expect(lead.Page.Locator("tr:has-text('People')")).ToContainTextAsync("24 schools have no teacher who has accepted.");
        await using var db = host.Portal.OpenDb();
        Assert.Equal((Schools, Rooms, 1), (await db.Schools.CountAsync(), await db.Tanks.CountAsync(), await db.Readings.CountAsync()));
        var told = await File.ReadAllTextAsync(Path.Combine(Root(), "docs", "first-evening.md"));
        Assert.Contains($"the lead: {lead.Told}", told, StringComparison.Ordinal);
        Assert.Contains($"a teacher: {teacher.Told}", told, StringComparison.Ordinal);
        Assert.Contains($"a class: {@class.Told}", told, StringComparison.Ordinal);
        Assert.Empty(host.Troubles);
    }

    private static async Task SetUpAsync(BrowserHost host, CountedPage lead)
    {
        await using var output = new StringWriter();
        await using (var db = host.Portal.OpenDb())
        {
            await SetUp.PrintLinkAsync(db, new Uri(PortalHost.PublicUrl), host.Portal.Now, output);
        }

        await lead.Page.GotoAsync(new Uri(output.ToString().Trim()["set-up link: ".Length..]).PathAndQuery);
        await lead.FillAsync("#programme", "Alder Basin");
        await lead.SelectAsync("#zone", "America/Denver");
        await lead.FillAsync("#name", "Rosa Lind");
        await lead.FillAsync("#email", "rosa@alderbasin.example");
        await lead.FillAsync("#password", "eyed eggs on a cold morning");
        await lead.FillAsync("#again", "eyed eggs on a cold morning");
        await lead.ClickAsync("button:text-is('Set up the programme')");
        await Assertions.Expect(lead.Page.Locator("h1")).ToContainTextAsync("2 of 12 steps are done.");
    }

    private static async Task SeasonAsync(CountedPage lead)
    {
        await lead.ClickAsync("a:text-is('Season’s days')");
        await lead.FillAsync("#starts", "2026-09-01");
        await lead.FillAsync("#ends", "2027-07-31");
        await lead.ClickAsync("button:text-is('Save')");
        await Assertions.Expect(lead.Page.Locator("#notice")).ToContainTextAsync("runs from 1 Sep 2026 to 31 Jul 2027");
        await lead.ClickAsync("a:text-is('First steps')");
        await lead.ClickAsync("text=Next: schools, rooms and tanks");
    }

    private static async Task BringInAsync(CountedPage lead, string name, string rows, int stored)
    {
        await lead.ChooseAsync("#file", name, rows);
        await lead.ClickAsync("text=Look at it first");
        await Assertions.Expect(lead.Page.Locator("h1")).ToContainTextAsync($"{stored} of {stored} rows can be stored.");
        await lead.ClickAsync("text=Store these");
        await Assertions.Expect(lead.Page.Locator("#notice")).ToContainTextAsync($"Stored: {stored} added");
        await lead.ClickAsync("text=All imports of places");
    }

    private static async Task<string> LabelAsync(BrowserHost host, CountedPage lead)
    {
        await lead.ClickAsync("nav a[href='/season']");
        await lead.ClickAsync("a:text-is('Labels')");
        Assert.StartsWith("%PDF", await lead.SaveAsync("a[href^='/labels/all.pdf']"), StringComparison.Ordinal);
        await using var db = host.Portal.OpenDb();
        var tank = await db.Tanks.Where(t => t.Code == "R001").Select(t => t.Id).SingleAsync();
        return await db.RoomCodes.Where(c => c.TankId == tank && c.PrintedAt != null).Select(c => c.Code).SingleAsync();
    }

    private static async Task AcceptAsync(CountedPage teacher, string link)
    {
        await teacher.Page.GotoAsync(link);
        await teacher.FillAsync("#password", "a tank by the window");
        await teacher.FillAsync("#again", "a tank by the window");
        await teacher.ClickAsync("text=Accept the invitation");
        await Assertions.Expect(teacher.Page.Locator(".who")).ToContainTextAsync("Sign out");
    }

    private static async Task ReadAsync(CountedPage @class, string secret)
    {
        await @class.Page.GotoAsync($"/t/{secret}");
        await @class.FillAsync("#water", "51");
        await @class.ClickAsync("label[for=unit-f]");
        await @class.ClickAsync("button.send");
        await @class.Page.Locator(".said").WaitForAsync();
    }

    private static string SchoolRows() => "School,Area,Opens,Closes,Door and sign in\n" + string.Concat(Enumerable.Range(1, Schools).Select(n =>
        string.Create(CultureInfo.InvariantCulture, $"Alder School {n:00},{(n % 2 == 0 ? "north" : "south")},8:00,15:15,Blue door\n")));

    private static string RoomRows() => "School,Room,Tank code,Litres,Set point\n" + string.Concat(Enumerable.Range(1, Rooms).Select(n =>
        string.Create(CultureInfo.InvariantCulture, $"Alder School {((n - 1) / RoomsASchool) + 1:00},Room {n},R{n:000},208,51 F\n")));

    private static string PeopleRows() => "Name,Email,Role,School\n" + string.Concat(Enumerable.Range(1, Schools).Select(n =>
        string.Create(CultureInfo.InvariantCulture, $"Teacher {n:00},teacher{n:00}@alderbasin.example,teacher,Alder School {n:00}\n")));

    private static string Root()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "Program.sln")))
        {
            folder = folder.Parent!;
        }

        return folder.FullName;
    }

    /// <summary>A page whose clicks and typed fields are counted; an address that is scanned or stands in a mail is neither.</summary>
    private sealed class CountedPage(IPage page)
    {
        public IPage Page { get; } = page;

        private int Clicks { get; set; }

        private int Fields { get; set; }

        public string Told => $"{Clicks} {(Clicks == 1 ? "click" : "clicks")}, {Fields} {(Fields == 1 ? "field" : "fields")}";

        public Task ClickAsync(string what)
        {
            Clicks++;
            return Page.Locator(what).First.ClickAsync();
        }

        /// <summary>The file behind a link, saved with a click; shown in the browser's own viewer it would be out of a test's reach.</summary>
        public async Task<string> SaveAsync(string link)
        {
            Clicks++;
            var answer = await Page.APIRequest.GetAsync((await Page.Locator(link).First.GetAttributeAsync("href"))!);
            return await answer.TextAsync();
        }

        public Task FillAsync(string field, string text)
        {
            Fields++;
            return Page.FillAsync(field, text);
        }

        public Task SelectAsync(string field, string choice)
        {
            Fields++;
            return Page.SelectOptionAsync(field, choice);
        }

        public Task ChooseAsync(string field, string name, string text)
        {
            Fields++;
            return Page.SetInputFilesAsync(field, new FilePayload { Name = name, MimeType = "text/csv", Buffer = Encoding.UTF8.GetBytes(text) });
        }
    }
}
