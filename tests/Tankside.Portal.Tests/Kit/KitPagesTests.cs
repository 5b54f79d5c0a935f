using System.Net;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Kit;
using Tankside.Hatchery.People;
using Tankside.Portal.Tests.Shell;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Kit;

/// <summary>The pages of the kit, without script.</summary>
public class KitPagesTests
{
    [Theory, BothDatabases]
    public async Task A_new_piece_is_entered_once_and_found_by_kind_condition_place_and_serial(DatabaseKind kind)
    {
        await using var kit = await KitWorld.CreateAsync(kind);
        var client = await kit.Host.ClientAs(Role.KitHand, kit.World.One);
        var fields = new Dictionary<string, string>
        {
            ["Input.Kind"] = "Pump",
            ["Input.Serial"] = "pu 7",
            ["Input.Make"] = "Larkspur 300",
            ["Input.MostLitres"] = "210,5",
            ["Input.Depot"] = $"{kit.Depot.Id}",
        };
        var send = await client.OpenFormAsync("/kit/new", fields, "kit");
        Assert.Equal(HttpStatusCode.Redirect, (await send()).StatusCode);
        Assert.Equal(HttpStatusCode.Redirect, (await send()).StatusCode);

        var item = await kit.ItemAsync("PU 7");
        Assert.Equal((210.5, kit.Depot.Id), (item.MostLitres, item.DepotId!.Value));
        Assert.Single(await kit.ActsAsync("PU 7"));
        Assert.Equal(["PU 7"], await SerialsAsync(client, "/kit?kind=Pump"));
        Assert.Equal(["CH-1"], await SerialsAsync(client, "/kit?place=Tank"));
        Assert.Equal(["PU 7"], await SerialsAsync(client, "/kit?search=u+7"));
        Assert.Equal(["SP-1"], await SerialsAsync(client, "/kit?search=mill+shed&kind=Chiller"));
        Assert.Contains("No piece fits", await client.GetStringAsync("/kit?condition=Faulty"), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.OK, (await client.GetAsync("/kit/PU%207")).StatusCode);
    }

    [Theory, BothDatabases]
    public async Task A_serial_that_is_there_already_is_told_with_its_place(DatabaseKind kind)
    {
        await using var kit = await KitWorld.CreateAsync(kind);
        var client = await kit.Host.ClientAs(Role.Coordinator, kit.World.One);

        var answer = await client.PostFormAsync("/kit/new", new Dictionary<string, string> { ["Input.Serial"] = " ch-1 ", ["Input.Make"] = "any" }, "kit");

        var page = WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync());
        Assert.Contains("CH-1 is in the register already: chiller, quarter horse, A001, Birch Lane School, Room 1", page, StringComparison.Ordinal);
        await using var db = kit.Host.OpenDb();
        Assert.Equal(2, await db.KitItems.CountAsync());
    }

    [Theory, BothDatabases]
    public async Task The_loan_agreement_lists_the_serials_the_cautions_and_lines_to_sign(DatabaseKind kind)
    {
        await using var kit = await KitWorld.CreateAsync(kind);
        var client = await kit.Host.ClientAs(Role.Teacher, kit.World.One);

        var pdf = PrintedPdf.Read(await client.GetByteArrayAsync("/kit/loans/A001.pdf?paper=a4"));

        foreach (var words in new[] { "Birch Lane School", "CH-1", "quarter horse", "drip loop", "never moved with water", "signature", "Who pays for loss" })
        {
            Assert.Contains(words, pdf.Text, StringComparison.Ordinal);
        }

        Assert.DoesNotContain("SP-1", pdf.Text, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotFound, (await client.GetAsync("/kit/loans/A002.pdf")).StatusCode);
        Assert.Equal(HttpStatusCode.BadRequest, (await client.GetAsync("/kit/loans/A001.pdf?paper=a3")).StatusCode);
    }

    [Theory, BothDatabases]
    public async Task Stock_goes_in_and_out_once_a_form_and_says_when_to_order(DatabaseKind kind)
    {
        await using var kit = await KitWorld.CreateAsync(kind);
        var client = await kit.Host.ClientAs(Role.KitHand, kit.World.One);
        await client.PostFormAsync("/kit/stock", new Dictionary<string, string>
        {
            ["Input.Name"] = "Neutraliser",
            ["Input.Unit"] = "bottle",
            ["Input.InStock"] = "10",
            ["Input.ReorderAt"] = "4",
            ["Input.ReorderQuantity"] = "12",
        }, "consumable");
        Assert.Contains("Nothing is to be ordered", await client.GetStringAsync("/kit/stock"), StringComparison.Ordinal);

        var send = await client.OpenFormAsync("/kit/stock", new Dictionary<string, string> { ["Move.Change"] = "-6" }, "change");
        await send();
        await send();
        Assert.Contains("1 thing is to be ordered", await client.GetStringAsync("/kit/stock"), StringComparison.Ordinal);
        await client.PostFormAsync("/kit/stock", new Dictionary<string, string> { ["Move.Change"] = "-5" }, "change");
        Assert.Contains("There are only 4 of Neutraliser", WebUtility.HtmlDecode(await client.GetStringAsync("/kit/stock")), StringComparison.Ordinal);

        await using var db = kit.Host.OpenDb();
        Assert.Equal((4, -6, 4), (await db.Consumables.Select(c => c.InStock).SingleAsync(), await db.ConsumableMoves.Select(m => m.Change).SingleAsync(), await db.ConsumableMoves.Select(m => m.InStockAfter).SingleAsync()));
    }

    [Theory, BothDatabases]
    public async Task The_failures_of_a_batch_are_counted_over_its_weeks_at_work(DatabaseKind kind)
    {
        await using var kit = await KitWorld.CreateAsync(kind);
        await kit.DoAsync("CH-1", await kit.FormAsync("CH-1", KitActKind.Fault));
        var client = await kit.Host.ClientAs(Role.ProgrammeLead, kit.World.One);

        var page = await client.GetStringAsync("/kit/failures");

        // Four weeks in the tank and one failure: 5.5 a season of 22 weeks, between 0.14 and 30.65.
        Assert.Contains("1 failure at work so far", page, StringComparison.Ordinal);
        Assert.Contains("5.50", page, StringComparison.Ordinal);
        Assert.Contains("0.14 to 30.64", page, StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task Spares_are_planned_with_their_cover_and_lie_where_most_fish_are_near(DatabaseKind kind)
    {
        await using var kit = await KitWorld.CreateAsync(kind);
        await kit.Host.SeedAsync(db =>
        {
            foreach (var (i, school) in db.Schools.Where(s => s.ProgrammeId == kit.World.One.Programme.Id).OrderBy(s => s.Name).AsEnumerable().Index())
            {
                (school.Latitude, school.Longitude) = (44 - i, -113);
            }

            db.Add(new KitDepot { Id = Guid.NewGuid(), ProgrammeId = kit.World.One.Programme.Id, Name = "Far shed", Latitude = 42, Longitude = -113 });
            db.Add(new ProgrammeSetting { ProgrammeId = kit.World.One.Programme.Id, Key = KitSettings.FailuresKey, Value = 0.5 });
        });
        var client = await kit.Host.ClientAs(Role.KitHand, kit.World.One);

        var season = await client.GetStringAsync("/kit/spares?number=1");
        Assert.Contains("2 spare chillers are enough for 2 tanks in over 99% of seasons", season, StringComparison.Ordinal);
        Assert.Contains("Mill shed", season, StringComparison.Ordinal);
        Assert.DoesNotContain("Far shed", season, StringComparison.Ordinal);

        Assert.Contains("a storm over north, 1 tank", await client.GetStringAsync("/kit/spares?before=north"), StringComparison.Ordinal);
        var pumps = await client.GetStringAsync("/kit/spares?kind=Pump&failures=20&number=0");
        Assert.Contains("2 spare pumps are enough for 2 tanks", pumps, StringComparison.Ordinal); // one a depot; 2 x 0.2 x 4 / 22 are away at one time, none in 93%
        Assert.Contains("<dd>93%</dd>", pumps, StringComparison.Ordinal);
        Assert.Contains("the setting for chillers", await client.GetStringAsync("/kit/spares?kind=Pump"), StringComparison.Ordinal);
        Assert.Contains("is no share", await client.GetStringAsync("/kit/spares?failures=120"), StringComparison.Ordinal);
        Assert.Contains("is not a number of spares", WebUtility.HtmlDecode(await client.GetStringAsync("/kit/spares?number=many")), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task The_ice_plan_tells_bottles_for_the_room_and_what_cannot_be_meant(DatabaseKind kind)
    {
        await using var kit = await KitWorld.CreateAsync(kind);
        var client = await kit.Host.ClientAs(Role.Teacher, kit.World.One);

        Assert.Contains("frozen two-litre bottles a day hold A001", await client.GetStringAsync("/kit/ice/A001"), StringComparison.Ordinal);
        Assert.Contains("bare ice from tap water brings chlorine", await client.GetStringAsync("/kit/ice/A001"), StringComparison.Ordinal);
        Assert.Contains("needs no ice", await client.GetStringAsync("/kit/ice/A001?room=46&hold=60"), StringComparison.Ordinal);
        Assert.Contains("cannot be meant in °F", WebUtility.HtmlDecode(await client.GetStringAsync("/kit/ice/A001?room=512")), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotFound, (await client.GetAsync("/kit/ice/A002")).StatusCode);
    }

    private static async Task<List<string>> SerialsAsync(HttpClient client, string address)
    {
        var page = await client.GetStringAsync(address);
        return [.. System.Text.RegularExpressions.Regex.Matches(page, "<th scope=\"row\"><a href=\"[^\"]*\">([^<]*)</a>").Select(m => m.Groups[1].Value)];
    }
}
