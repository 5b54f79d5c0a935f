using System.Net;
using System.Text;
using System.Text.RegularExpressions;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Storage;
using Tankside.Testing;
using static Tankside.Portal.Tests.Places.Register.CalendarFileTests;
using static Tankside.Portal.Tests.Releases.LedgerForms;

namespace Tankside.Portal.Tests.Places.Register;

public partial class CalendarImportTests
{
    private static readonly string District = Calendar(
        Event("Spring break, no school", "DTSTART;VALUE=DATE:20270322", "DTEND;VALUE=DATE:20270327"),
        Event("Picture day", "DTSTART;VALUE=DATE:20270301"));

    [Theory, BothDatabases]
    public async Task Ticked_events_become_closures_once_and_are_taken_back(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);

        var address = await SendAsync(lead, District);
        var looked = await lead.ReadAsync(address);
        Assert.Contains("Which of these 2 events shut the school?", looked, StringComparison.Ordinal);
        Assert.Single(Ticks().Matches(looked));
        await using var db = host.OpenDb();
        Assert.Empty(await db.Closures.ToListAsync());
        Assert.Contains("No event is ticked", await lead.SendAsync(address, [], "store"), StringComparison.Ordinal);

        // Events stand in the order of their days: the second is the spring break.
        var stored = await lead.SendAsync(address, new() { ["keep"] = "2" }, "store");
        Assert.Contains("Stored: 1 added", stored, StringComparison.Ordinal);
        var closure = await db.Closures.SingleAsync();
        Assert.Equal((null, new DateOnly(2027, 3, 22), new DateOnly(2027, 3, 26), "Spring break, no school"), (closure.SchoolId, closure.FirstDay, closure.LastDay, closure.Reason));

        var again = await lead.ReadAsync(await SendAsync(lead, District));
        Assert.Contains("Which of these 1 events", again, StringComparison.Ordinal);
        Assert.Empty(Ticks().Matches(again));

        await lead.SendAsync(address, [], "undo");
        Assert.Empty(await db.Closures.ToListAsync());
    }

    [Theory, BothDatabases]
    public async Task A_file_that_is_no_calendar_is_told_so_and_nothing_is_kept(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);

        var answer = await PostAsync(lead, "Day,Reason\n");

        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Contains("This is no calendar file.", await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        await using var db = host.OpenDb();
        Assert.False(await db.PlaceImports.AnyAsync());
    }

    private static async Task<string> SendAsync(HttpClient client, string calendar)
    {
        var answer = await PostAsync(client, calendar);
        Assert.NotNull(answer.Headers.Location);
        return new Uri(client.BaseAddress!, answer.Headers.Location).AbsolutePath;
    }

    private static async Task<HttpResponseMessage> PostAsync(HttpClient client, string calendar)
    {
        var page = await client.GetStringAsync("/season/closures/calendar");
        using var form = new MultipartFormDataContent
        {
            { new StringContent("calendar"), "_handler" },
            { new StringContent(Token().Match(page).Groups[1].Value), "__RequestVerificationToken" },
            { new StringContent(Guid.NewGuid().ToString()), "Input.Id" },
            { new StringContent(""), "Input.School" },
        };
        form.Add(new ByteArrayContent(Encoding.UTF8.GetBytes(calendar)), "Input.File", "district.ics");
        return await client.PostAsync("/season/closures/calendar", form);
    }

    [GeneratedRegex("name=\"__RequestVerificationToken\" value=\"([^\"]+)\"")]
    private static partial Regex Token();

    [GeneratedRegex("name=\"keep\"[^>]* checked")]
    private static partial Regex Ticks();
}
