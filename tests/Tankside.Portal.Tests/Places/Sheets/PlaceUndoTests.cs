using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Kit;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Portal.Tests.Kit;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Places.Sheets;

/// <summary>Imports taken back: all of it, or all but what has come to be used or changed.</summary>
public class PlaceUndoTests
{
    [Theory, BothDatabases]
    public async Task What_an_import_added_goes_and_what_it_changed_is_set_back(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var portal = host;
        var client = await host.ClientAs(Role.Coordinator, world.One);
        var schools = await client.StoreSheetAsync("School,Area\nBirch Lane School,west\nTern Flat,east\n");
        var rooms = await client.StoreSheetAsync("School,Room,Tank,Litres,Set point\nTern Flat,Room 1,A900,208,10.5\nBirch Lane School,Room 1,A001,190,10.5\n");
        await host.SweepAsync();

        Assert.Contains("Taken back: 3 of 3.", await client.PressAsync(rooms, "undo"), StringComparison.Ordinal);
        Assert.Contains("Taken back: 2 of 2.", await client.PressAsync(schools, "undo"), StringComparison.Ordinal);

        await using var db = host.OpenDb();
        Assert.Equal(["Birch Lane School", "Mill Pond School"], await db.Schools.Where(s => s.ProgrammeId == world.One.Programme.Id).Select(s => s.Name).OrderBy(n => n).ToListAsync());
        Assert.Equal("north", (await db.Schools.SingleAsync(s => s.Id == world.One.Schools[0].Id)).Area);
        Assert.Equal(208, (await db.Tanks.SingleAsync(t => t.Code == "A001")).Litres);
        Assert.False(await db.Tanks.AnyAsync(t => t.Code == "A900"));
        Assert.Equal(PlaceImportState.Undone, (await host.PlaceImportAsync(schools)).State);
    }

    [Theory, BothDatabases]
    public async Task What_is_in_use_or_was_changed_since_stays_and_is_named_with_the_reason(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var portal = host;
        var client = await host.ClientAs(Role.Coordinator, world.One);
        var schools = await client.StoreSheetAsync("School,Area,Opens\nBirch Lane School,west,7:30\nTern Flat,east,\nOwl Rise,east,\n");
        await client.StoreSheetAsync("School,Room\nTern Flat,Room 1\n");
        await using (var db = host.OpenDb())
        {
            (await db.Schools.SingleAsync(s => s.Id == world.One.Schools[0].Id)).Area = "centre";
            (await db.Schools.SingleAsync(s => s.Name == "Owl Rise")).ElevationM = 5;
            (await db.Schools.SingleAsync(s => s.Name == "Owl Rise")).Area = "upper east";
            await db.SaveChangesAsync();
        }

        var page = await client.PressAsync(schools, "undo");
        Assert.Contains("Taken back: 0 of 3. 3 stay", page, StringComparison.Ordinal);
        Assert.Contains("area was changed since to “centre”, and stays so.", page, StringComparison.Ordinal);
        Assert.Contains("It stays: it is in use by now (classroom).", page, StringComparison.Ordinal);
        Assert.Contains("It stays: its area was changed since.", page, StringComparison.Ordinal);
        await using var after = host.OpenDb();
        Assert.Equal(new TimeOnly(8, 0), (await after.Schools.SingleAsync(s => s.Id == world.One.Schools[0].Id)).OpensAt);
        Assert.True(await after.Schools.AnyAsync(s => s.Name == "Tern Flat"));
    }

    [Theory, BothDatabases]
    public async Task Kit_keeps_the_registers_rules_and_is_taken_back_while_nothing_was_done_with_it(DatabaseKind kind)
    {
        await using var world = await KitWorld.CreateAsync(kind);
        var client = await world.Host.ClientAs(Role.Coordinator, world.World.One);
        const string Sheet = """
            Serial,Kind,Make,Batch,Warranty until,Place
            ch-1,chiller,quarter horse,2020-C,,A001
            sp-1,chiller,quarter horse,,,A002
            P-7,pump,Fenwick,,2028-01-31,Mill shed
            P-8,pump,Fenwick,,,Mill Pond School
            P-9,teapot,Fenwick,,,
            SP-1/2,pump,Fenwick,,,
            p-7,pump,Fenwick,,,
            """;
        var address = await client.SendSheetAsync(Sheet);
        var page = await client.ReadAsync(address);
        Assert.Equal((int[])[2, 1, 0, 4], PlaceSteps.Totals(page));
        Assert.Contains("By the register SP-1 is elsewhere: Mill shed", page, StringComparison.Ordinal);
        await client.PressAsync(address, "store");

        Assert.Equal(new KitSpot(KitPlace.Depot, world.Depot.Id), (await world.ItemAsync("P-7")).Spot);
        Assert.Equal(world.World.One.Tanks[1].Id, (await world.ItemAsync("P-8")).InTankId);
        Assert.Equal([KitActKind.Registered, KitActKind.Out], (await world.ActsAsync("P-8")).Select(a => a.Kind));
        await world.DoAsync("P-8", await world.FormAsync("P-8", KitActKind.Noted, f => f.Note = "hums"));

        var told = await client.PressAsync(address, "undo");
        Assert.Contains("Taken back: 2 of 3.", told, StringComparison.Ordinal);
        Assert.Contains("something was done with it since", told, StringComparison.Ordinal);
        Assert.Equal("2019-B", (await world.ItemAsync("CH-1")).Batch);
        await using var db = world.Host.OpenDb();
        Assert.Equal(["CH-1", "P-8", "SP-1"], await db.KitItems.Where(k => k.ProgrammeId == world.World.One.Programme.Id).Select(k => k.Serial).OrderBy(s => s).ToListAsync());
    }
}
