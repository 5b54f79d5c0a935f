using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;
using Microsoft.Playwright;
using Tankside.Hatchery.Eggs.Runs;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Portal.Eggs.Runs;
using Tankside.Portal.Tests;
using Tankside.Testing;

namespace Tankside.Browser.Tests;

/// <summary>The eggs of forty-eight rooms from the order to the last tank, as a coordinator and six drivers do it.</summary>
public class ProgrammeOfFortyEightStory
{
    private const int Rooms = 48, RoomsASchool = 4, Drivers = 6, EggsARoom = 150;

    [BrowserFact]
    public async Task Forty_eight_rooms_get_their_eggs()
    {
        await using var host = await BrowserHost.StartAsync(settings: new PortalHostSettings
        {
            Services = services => services.Replace(ServiceDescriptor.Singleton(new PlanPatience(TimeSpan.FromSeconds(1), TimeSpan.Zero))),
        });
        await BuildAsync(host);
        var page = await host.PageAsAsync(Role.Coordinator);

        await OrderAsync(page);
        await AllotAsync(page);
        var run = await PlanAsync(page);
        await DriveAsync(host);

        await page.GotoAsync(run);
        await page.WaitForSelectorAsync($"text=Of {Rooms * EggsARoom:N0} eggs: {Rooms * EggsARoom:N0} handed over");
        await ArriveAsync(page, run);
        await page.GotoAsync(run);
        await page.WaitForSelectorAsync("[role=alert]:has-text('20 of 150 eggs were dead on arrival')");
        await using var db = host.Portal.OpenDb();
        Assert.Equal(
            [(0, 150), (20, 150)],
            (await db.Receipts.Where(r => r.SeasonId == host.World.One.Season.Id).Select(r => new { r.DeadOnArrival, r.Eggs }).OrderBy(r => r.DeadOnArrival).ToListAsync()).Select(r => (r.DeadOnArrival, r.Eggs)));
        Assert.Empty(host.Troubles);
    }

    private static async Task OrderAsync(IPage page)
    {
        await page.GotoAsync("/lots/order?wish=3000");
        var ordered = await page.InnerTextAsync("h1");
        Assert.Matches(@"^Order [\d,]+ eggs to release 3,000 fish\.$", ordered);
        Assert.InRange(int.Parse(ordered.Split(' ')[1], NumberStyles.AllowThousands, CultureInfo.InvariantCulture), 3000, 20_000);

        await page.GotoAsync("/lots/new");
        await page.FillAsync("#code", "F48");
        await page.SelectOptionAsync("#species", "RainbowTrout");
        await page.FillAsync("#from", "2027-01-05");
        await page.FillAsync("#mean", "48");
        await page.ClickAsync("main button[type=submit]");
        await page.WaitForSelectorAsync("#notice");
    }

    /// <summary>Every room in one form; the order follows from it.</summary>
    private static async Task AllotAsync(IPage page)
    {
        await page.GotoAsync("/lots/allot");
        var lot = await page.Locator("select[name='Input.Rows[0].Lot'] option:text-is('F48')").GetAttributeAsync("value");
        for (var row = 0; row < Rooms; row++)
        {
            await page.FillAsync($"input[name='Input.Rows[{row}].Eggs']", $"{EggsARoom}");
            await page.SelectOptionAsync($"select[name='Input.Rows[{row}].Lot']", lot!);
            await page.FillAsync($"input[name='Input.Rows[{row}].Day']", "2027-02-03");
        }

        await page.GetByText("Keep the promises").ClickAsync();
        await page.WaitForSelectorAsync("#notice");
        Assert.Equal("7,200", await page.InnerTextAsync("tr:has(th:text-is('F48')) td >> nth=0"));
    }

    private static async Task<string> PlanAsync(IPage page)
    {
        await page.GotoAsync("/runs");
        await page.FillAsync("#day", "2027-02-03");
        await page.ClickAsync("text=Make the run");
        await page.ArrivesAtAsync("/runs/.*-");
        var run = new Uri(page.Url).AbsolutePath;
        await page.ClickAsync("text=Choose stops");
        await Assertions.Expect(page.Locator("input[name='Input.Tanks']:checked")).ToHaveCountAsync(Rooms);
        await Assertions.Expect(page.Locator("input[name='Input.NoGoToHolding']")).ToBeCheckedAsync();
        await page.UncheckAsync("input[name='Input.NoGoToHolding']"); // nobody went through the lists of this made-up programme
        await page.ClickAsync("text=These are the stops");
        await page.ClickAsync("text=Places and drivers");
        await page.FillAsync("#place-name", "Reed Hatchery");
        await page.FillAsync("#latitude", "43.70");
        await page.FillAsync("#longitude", "-113.70");
        await page.ClickAsync("text=Add the place");
        for (var driver = 1; driver <= Drivers; driver++)
        {
            await page.FillAsync("#name", $"Driver {driver}");
            await page.FillAsync("#phone", $"555-010{driver}");
            await page.ClickAsync("text=Add the driver");
            await page.WaitForSelectorAsync($"th:has-text('Driver {driver}')");
        }

        await page.GotoAsync($"{run}/terms");
        await page.FillAsync("#talk", "20");
        await page.ClickAsync("text=Keep this");
        await page.ClickAsync("text=Plan the rounds");
        await page.WaitForSelectorAsync($"h1:has-text('{Rooms} stops in')", new() { Timeout = 60_000 });
        var sheets = await page.APIRequest.GetAsync($"{run}/sheets.pdf");
        Assert.Equal("application/pdf", sheets.Headers["content-type"]);
        return run;
    }

    /// <summary>Each driver loads all at one press and hands over at every stop of the own round.</summary>
    private static async Task DriveAsync(BrowserHost host)
    {
        await using var db = host.Portal.OpenDb();
        var codes = await db.RunDrivers.OrderBy(d => d.Number).Select(d => d.Code).ToListAsync();
        var phone = await host.PageAsync();
        foreach (var code in codes)
        {
            await phone.GotoAsync($"/run/{code}");
            if (await phone.GetByText("No stop is yours now.").CountAsync() > 0)
            {
                continue; // fewer rounds did
            }

            await phone.ClickAsync($"button[value={TickDeed.Loaded}]");
            // The sheet loads again then; between the two pages there is no button at all.
            await Assertions.Expect(phone.Locator($"button[value={TickDeed.Loaded}]")).ToHaveCountAsync(0);
            await Assertions.Expect(phone.Locator($"button[value={TickDeed.HandedOver}]").First).ToBeVisibleAsync();
            while (await phone.Locator($"button[value={TickDeed.HandedOver}]").CountAsync() is > 0 and var left)
            {
                await phone.Locator($"button[value={TickDeed.HandedOver}]").First.ClickAsync();
                await Assertions.Expect(phone.Locator($"button[value={TickDeed.HandedOver}]")).ToHaveCountAsync(left - 1);
            }
        }
    }

    /// <summary>Two rooms count; in the second every seventh egg is dead.</summary>
    private static async Task ArriveAsync(IPage page, string run)
    {
        foreach (var dead in new[] { "0", "20" })
        {
            await page.GotoAsync(run);
            await page.GetByText("Enter the arrival").First.ClickAsync();
            await page.FillAsync("#box", "44");
            await page.FillAsync("#tank-temperature", "51");
            await page.FillAsync("#tempered", "35");
            await page.FillAsync("#received-by", "Front office");
            await page.FillAsync("#count", $"{EggsARoom}");
            await page.FillAsync("#dead", dead);
            await page.ClickAsync("main button[type=submit]");
            await page.WaitForSelectorAsync(dead == "0" ? "h1:has-text('150 eggs arrived at')" : "h1:has-text('20 of 150 eggs were dead on arrival')");
        }
    }

    /// <summary>Twelve schools of four rooms round the hatchery; nothing has come to any tank.</summary>
    private static Task BuildAsync(BrowserHost host) => host.Portal.SeedAsync(db =>
    {
        var one = host.World.One;
        db.RemoveRange(db.Receipts.Where(r => r.SeasonId == one.Season.Id));
        db.RemoveRange(db.Ledger.Where(e => e.SeasonId == one.Season.Id));
        foreach (var (index, school) in db.Schools.Where(s => s.ProgrammeId == one.Programme.Id).ToList().Index())
        {
            (school.Latitude, school.Longitude) = (43.70 + (0.03 * index), -113.72);
        }

        foreach (var rooms in Enumerable.Range(0, Rooms - one.Tanks.Length).Chunk(RoomsASchool))
        {
            var north = rooms[0] / RoomsASchool;
            School school = new()
            {
                Id = Guid.NewGuid(),
                ProgrammeId = one.Programme.Id,
                Name = $"School {north + 1}",
                Area = "valley",
                Latitude = 43.70 + (0.02 * north),
                Longitude = -113.70 + (0.03 * (north % 3)),
            };
            db.Add(school);
            foreach (var number in rooms)
            {
                var room = new Classroom { Id = Guid.NewGuid(), SchoolId = school.Id, Name = $"Room {number + 10}" };
                db.AddRange(room, new Tank { Id = Guid.NewGuid(), ProgrammeId = one.Programme.Id, ClassroomId = room.Id, Code = $"A{number + 10:000}", Litres = 208, SetPointC = 10.5 });
            }
        }
    });
}
