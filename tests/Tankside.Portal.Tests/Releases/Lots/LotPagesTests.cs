using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.People;
using Tankside.Science.Eggs;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Releases.Lots;

/// <summary>A lot is entered as the hatchery's paper tells it, promised to tanks, and its dates follow.</summary>
public class LotPagesTests
{
    private static Dictionary<string, string> Paper(params (string Field, string Value)[] fields) => fields
        .Concat([("Code", "K7"), ("Species", nameof(Species.RainbowTrout)), ("SpawnedFrom", "2027-01-04"), ("Unit", "F"), ("MeanTemperature", "50"), ("KnownBy", nameof(StartKnownBy.MeanTemperature))])
        .DistinctBy(f => f.Item1).ToDictionary(f => "Input." + f.Item1, f => f.Item2);

    [Theory, BothDatabases]
    public async Task A_lot_is_entered_once_with_its_units_their_unit_and_their_start(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var client = await host.ClientAs(Role.Coordinator, world.One);

        var send = await client.OpenFormAsync("/lots/new", Paper(("KnownBy", nameof(StartKnownBy.ThermalUnits)), ("Units", "540"), ("UnitsOn", "2027-02-03")), "lot");
        await send();
        await send();

        using var db = host.OpenDb();
        var lot = Assert.Single(db.EggLots, l => l.Code == "K7");
        Assert.Equal(300, lot.UnitsC!.Value, 6);
        var page = await client.ReadAsync("/lots/K7");
        Assert.Contains("300 °C-days, 540 °F-days above 32 °F, since 4 Jan 2027", page, StringComparison.Ordinal);
        Assert.Contains("540 °F-days above 32 °F since spawning", page, StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task Units_that_do_not_fit_the_days_are_asked_back_and_taken_when_somebody_is_sure(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var client = await host.ClientAs(Role.Coordinator, world.One);
        var celsius = Paper(("KnownBy", nameof(StartKnownBy.ThermalUnits)), ("Units", "300"), ("UnitsOn", "2027-02-03"));

        var asked = await SentAsync(client, "/lots/new", celsius);
        Assert.Contains("167 °C-days (300 °F-days), but the spawning days and the mean temperature give about 300 °C-days (540 °F-days)", asked, StringComparison.Ordinal);
        using var db = host.OpenDb();
        Assert.DoesNotContain(db.EggLots, l => l.Code == "K7");

        await client.PostFormAsync("/lots/new", new Dictionary<string, string>(celsius) { ["Input.Sure"] = "true" }, "lot");
        Assert.Contains(db.EggLots, l => l.Code == "K7");
    }

    [Theory, BothDatabases]
    public async Task What_cannot_be_read_is_told_at_its_field_and_nothing_is_kept(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var client = await host.ClientAs(Role.Coordinator, world.One);

        var wrong = await SentAsync(client, "/lots/new", Paper(
            ("SpawnedTo", "2027-01-01"), ("KnownBy", nameof(StartKnownBy.DailyTemperatures)), ("Daily", "50 49,8 9o 50"), ("EyedOn", "2026-12-01"), ("MeanTemperature", "")));

        foreach (var said in new[] { "The last spawning day is before the first", "“9o”, day 3", "cannot be eyed before they were spawned", "Ask the hatchery for the water" })
        {
            Assert.Contains(said, wrong, StringComparison.Ordinal);
        }

        using var db = host.OpenDb();
        Assert.DoesNotContain(db.EggLots, l => l.Code == "K7");
    }

    [Theory, BothDatabases]
    public async Task Daily_temperatures_of_a_lot_move_the_dates_of_its_tanks_and_a_change_of_somebody_else_is_not_lost(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var client = await host.ClientAs(Role.Coordinator, world.One);
        var before = await SwimUpAsync(host, world.One.Tanks[0].Id);
        var stale = await client.OpenFormAsync("/lots/L1", new Dictionary<string, string> { ["Input.Strain"] = "creek" }, "lot");

        await client.PostFormAsync("/lots/L1", new Dictionary<string, string>
        {
            ["Input.KnownBy"] = nameof(StartKnownBy.DailyTemperatures),
            ["Input.Daily"] = string.Join(' ', Enumerable.Repeat("43", 60)),
        }, "lot");
        Assert.True(await SwimUpAsync(host, world.One.Tanks[0].Id) > before);

        Assert.Contains("Somebody else has changed this lot meanwhile", (await (await stale()).Content.ReadAsStringAsync()), StringComparison.Ordinal);
        using var db = host.OpenDb();
        Assert.NotEqual("creek", db.EggLots.Single(l => l.Code == "L1" && l.ProgrammeId == world.One.Programme.Id).Strain);
    }

    [Theory, BothDatabases]
    public async Task Promises_are_kept_all_or_none_and_every_change_names_its_room(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var client = await host.ClientAs(Role.Coordinator, world.One);
        using var db = host.OpenDb();
        var lot = db.EggLots.Single(l => l.SeasonId == world.One.Season.Id && l.Code == "L1").Id.ToString();
        var sunday = await SentAsync(client, "/lots/allot", new Dictionary<string, string> { ["Input.Rows[0].Eggs"] = "170", ["Input.Rows[0].Lot"] = lot, ["Input.Rows[0].Day"] = "2027-02-07" }, "allot");
        Assert.Contains("its school is shut on that day", sunday, StringComparison.Ordinal);
        Assert.Empty(db.AllotmentChanges);

        await client.PostFormAsync("/lots/allot", new Dictionary<string, string> { ["Input.Rows[0].Eggs"] = "170", ["Input.Rows[0].Lot"] = lot, ["Input.Rows[0].Day"] = "2027-02-08", ["Input.Why"] = "a second basket" }, "allot");
        var change = Assert.Single(db.AllotmentChanges);
        Assert.Equal((world.One.Tanks[0].Id, 170, "a second basket"), (change.TankId, change.EggsAfter, change.Why));
        Assert.Equal(170, db.Allotments.Single(a => a.TankId == world.One.Tanks[0].Id).Eggs);
        var page = await client.ReadAsync("/lots/allot");
        Assert.Contains("a second basket", page, StringComparison.Ordinal);
        Assert.Contains("Birch Lane School, Room 1", page, StringComparison.Ordinal);

        var stale = await client.OpenFormAsync("/lots/allot", new Dictionary<string, string> { ["Input.Rows[0].Eggs"] = "90" }, "allot");
        await client.PostFormAsync("/lots/allot", new Dictionary<string, string> { ["Input.Rows[0].Eggs"] = "180" }, "allot");
        Assert.Contains("180 eggs are promised now", await (await stale()).Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.Equal(180, db.Allotments.Where(a => a.TankId == world.One.Tanks[0].Id).Select(a => a.Eggs).Single());

        await client.PostFormAsync("/lots/allot", new Dictionary<string, string> { ["Input.Rows[0].Eggs"] = "0" }, "allot");
        Assert.DoesNotContain(db.Allotments, a => a.TankId == world.One.Tanks[0].Id);
        Assert.Equal(3, db.AllotmentChanges.Count());
    }

    [Theory, BothDatabases]
    public async Task The_order_is_reckoned_from_the_address_and_says_what_it_cannot_read(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var client = await host.ClientAs(Role.ProgrammeLead, world.One);

        Assert.Contains("How many fish are to be released?", await client.ReadAsync("/lots/order"), StringComparison.Ordinal);
        Assert.Contains("to release 1,000 fish.", await client.ReadAsync("/lots/order?wish=1000&pack=250"), StringComparison.Ordinal);
        Assert.Contains("“many” is no number of fish", await client.ReadAsync("/lots/order?wish=many"), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task An_own_table_gives_dates_to_a_species_without_a_published_rule_and_none_to_the_other_programme(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var client = await host.ClientAs(Role.Coordinator, world.One);
        await client.PostFormAsync("/lots/new", Paper(("Species", nameof(Species.CutthroatTrout))), "lot");
        Assert.DoesNotContain("of the way to half hatch", await client.ReadAsync("/lots/K7"), StringComparison.Ordinal);

        var table = new Dictionary<string, string> { ["Input.Species"] = nameof(Species.CutthroatTrout), ["Input.Rows"] = "43 60\n50 32\n57 2O", ["Input.Source"] = "our own three seasons" };
        Assert.Contains("Line 3, “57 2O”", await SentAsync(client, "/lots/tables", table, "table"), StringComparison.Ordinal);
        table["Input.Rows"] = "43 60\n50 32\n57 80";
        using var db = host.OpenDb();
        await client.PostFormAsync("/lots/tables", table, "table");
        Assert.Empty(db.OwnStageTables);

        table["Input.Rows"] = "43 60\n50 32\n57 20";
        await client.PostFormAsync("/lots/tables", table, "table");
        Assert.Contains("of the way to half hatch", await client.ReadAsync("/lots/K7"), StringComparison.Ordinal);
        var other = await host.ClientAs(Role.Coordinator, world.Two);
        await other.PostFormAsync("/lots/new", Paper(("Species", nameof(Species.CutthroatTrout))), "lot");
        Assert.DoesNotContain("of the way to half hatch", await other.ReadAsync("/lots/K7"), StringComparison.Ordinal);
        Assert.DoesNotContain("our own three seasons", await other.ReadAsync("/lots/tables"), StringComparison.Ordinal);

        await client.PostFormAsync("/lots/tables", new Dictionary<string, string>(), $"drop-{db.OwnStageTables.Single().Id}");
        Assert.Empty(db.OwnStageTables);
    }

    private static async Task<string> SentAsync(HttpClient client, string address, Dictionary<string, string> fields, string form = "lot") =>
        System.Net.WebUtility.HtmlDecode(await (await client.PostFormAsync(address, fields, form)).Content.ReadAsStringAsync()).Replace('\u00A0', ' ');

    private static async Task<DateOnly> SwimUpAsync(PortalHost host, Guid tank)
    {
        using var db = host.OpenDb();
        return (await Portal.Flags.TankGlances.LoadAsync(db, [tank], host.Now, CancellationToken.None))[0].Development!.SwimUp!.Mid;
    }
}
