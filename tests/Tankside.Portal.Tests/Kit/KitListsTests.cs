using System.Net;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Kit;
using Tankside.Hatchery.People;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Kit;

/// <summary>What was entered of depots and consumables can be put right.</summary>
public class KitListsTests
{
    [Theory, BothDatabases]
    public async Task A_depot_is_changed_where_nobody_changed_it_meanwhile(DatabaseKind kind)
    {
        await using var kit = await KitWorld.CreateAsync(kind);
        var client = await kit.Host.ClientAs(Role.KitHand, kit.World.One);
        var address = $"/kit/depots?change={kit.Depot.Id}";
        var slow = await client.OpenFormAsync(address, new Dictionary<string, string> { ["Input.Hours"] = "mornings" }, "depot");

        await client.PostFormAsync(address, new Dictionary<string, string> { ["Input.Name"] = "Mill barn", ["Input.Phone"] = "555-0140", ["Input.Latitude"] = "44,2" }, "depot");
        var late = WebUtility.HtmlDecode(await (await slow()).Content.ReadAsStringAsync());

        Assert.Contains("Somebody changed Mill barn meanwhile. Nothing of yours was saved", late, StringComparison.Ordinal);
        Assert.Contains("value=\"mornings\"", late, StringComparison.Ordinal);
        await using var db = kit.Host.OpenDb();
        var depot = await db.KitDepots.SingleAsync();
        Assert.Equal(("Mill barn", "555-0140", "evenings", 44.2, -113), (depot.Name, depot.Phone, depot.Hours, depot.Latitude, depot.Longitude));
    }

    [Theory, BothDatabases]
    public async Task A_depot_takes_no_other_ones_name_and_another_programmes_is_not_changed(DatabaseKind kind)
    {
        await using var kit = await KitWorld.CreateAsync(kind);
        KitDepot other = new() { Id = Guid.NewGuid(), ProgrammeId = kit.World.One.Programme.Id, Name = "Old dairy" }, foreign = new() { Id = Guid.NewGuid(), ProgrammeId = kit.World.Two.Programme.Id, Name = "Far shed" };
        await kit.Host.SeedAsync(db => db.AddRange(other, foreign));
        var client = await kit.Host.ClientAs(Role.Coordinator, kit.World.One);

        var same = await client.PostFormAsync($"/kit/depots?change={other.Id}", new Dictionary<string, string> { ["Input.Name"] = "mill shed" }, "depot");
        await client.PostFormAsync("/kit/depots", new Dictionary<string, string> { ["Input.Id"] = $"{foreign.Id}", ["Input.Version"] = "0", ["Input.Name"] = "Mine" }, "depot");

        Assert.Contains("There is a depot “mill shed” already", WebUtility.HtmlDecode(await same.Content.ReadAsStringAsync()), StringComparison.Ordinal);
        await using var db = kit.Host.OpenDb();
        Assert.Equal(["Far shed", "Mill shed", "Old dairy"], await db.KitDepots.Select(d => d.Name).Order().ToListAsync());
    }

    [Theory, BothDatabases]
    public async Task A_consumable_is_changed_but_for_its_number_which_only_counting_changes(DatabaseKind kind)
    {
        await using var kit = await KitWorld.CreateAsync(kind);
        var stones = new Consumable { Id = Guid.NewGuid(), ProgrammeId = kit.World.One.Programme.Id, Name = "Air stones", Unit = "piece", InStock = 5, ReorderAt = 6, ReorderQuantity = 20, Supplier = "Fenwick" };
        await kit.Host.SeedAsync(db => db.Add(stones));
        var client = await kit.Host.ClientAs(Role.KitHand, kit.World.One);
        var slow = await client.OpenFormAsync($"/kit/stock?change={stones.Id}", new Dictionary<string, string> { ["Input.ReorderAt"] = "9" }, "consumable");

        await client.PostFormAsync($"/kit/stock?change={stones.Id}", new Dictionary<string, string> { ["Input.Unit"] = "pack of two", ["Input.ReorderAt"] = "2", ["Input.Supplier"] = "" }, "consumable");
        var late = WebUtility.HtmlDecode(await (await slow()).Content.ReadAsStringAsync());

        Assert.Contains("Somebody changed Air stones meanwhile", late, StringComparison.Ordinal);
        Assert.Contains("Nothing is to be ordered", await client.GetStringAsync("/kit/stock"), StringComparison.Ordinal);
        await using var db = kit.Host.OpenDb();
        var now = await db.Consumables.SingleAsync();
        Assert.Equal(("Air stones", "pack of two", 5, 2, 20, null), (now.Name, now.Unit, now.InStock, now.ReorderAt, now.ReorderQuantity, now.Supplier));
        Assert.Empty(await db.ConsumableMoves.ToListAsync());
    }

    [Theory, BothDatabases]
    public async Task What_the_register_says_of_a_piece_is_put_right_and_its_history_says_what_stood_there(DatabaseKind kind)
    {
        await using var kit = await KitWorld.CreateAsync(kind);
        var client = await kit.Host.ClientAs(Role.KitHand, kit.World.One);
        var late = await client.OpenFormAsync("/kit/CH-1/correct", new Dictionary<string, string> { ["Input.Owner"] = "the club" }, "correct");
        var send = await client.OpenFormAsync("/kit/CH-1/correct", new Dictionary<string, string> { ["Input.Serial"] = "ch-7", ["Input.Batch"] = "2020-A", ["Input.WarrantyUntil"] = "2028-01-31" }, "correct");

        Assert.Equal("/kit/CH-7", (await send()).Headers.Location?.AbsolutePath);
        Assert.Equal(HttpStatusCode.NotFound, (await late()).StatusCode);
        var same = WebUtility.HtmlDecode(await (await client.PostFormAsync("/kit/CH-7/correct", new Dictionary<string, string> { ["Input.Serial"] = "sp-1" }, "correct")).Content.ReadAsStringAsync());
        await client.PostFormAsync("/kit/CH-7/correct", new Dictionary<string, string>(), "correct");

        Assert.Contains("SP-1 is in the register already", same, StringComparison.Ordinal);
        var item = await kit.ItemAsync("CH-7");
        Assert.Equal(("2020-A", new DateOnly(2028, 1, 31), kit.World.One.Tanks[0].Id, KitCondition.Working), (item.Batch, item.WarrantyUntil!.Value, item.InTankId!.Value, item.Condition));
        var acts = await kit.ActsAsync("CH-7");
        Assert.Equal([KitActKind.Registered, KitActKind.Out, KitActKind.Corrected], acts.Select(a => a.Kind));
        Assert.Equal("serial “CH-1” → “CH-7”; batch “2019-B” → “2020-A”; warranty until not given → “31 Jan 2028”", acts[^1].Note);
        await using var db = kit.Host.OpenDb();
        Assert.Equal("2020-A", await db.Tanks.Where(t => t.Id == kit.World.One.Tanks[0].Id).Select(t => t.ChillerBatch).SingleAsync());
    }
}
