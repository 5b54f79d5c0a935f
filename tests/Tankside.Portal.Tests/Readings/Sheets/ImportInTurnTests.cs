using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Readings.Sheets;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Readings.Sheets;

/// <summary>Two people, two portals, and a portal that stops in the middle.</summary>
public class ImportInTurnTests
{
    private static readonly string Sheet = "Tank,Date,Time,Water\n" + string.Concat(Enumerable.Range(0, 2_500).Select(i =>
        FormattableString.Invariant($"A00{(i % 2) + 1},2027-01-{(i / 100) + 2:00},{i % 100 / 10 + 8}:{i % 10 * 6:00},52.{i % 10}\n")));

    [Theory, BothDatabases]
    public async Task Two_people_who_store_the_same_preview_store_it_once(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var (coordinator, lead) = (await host.ClientAs(Role.Coordinator, world.One), await host.ClientAs(Role.ProgrammeLead, world.One));
        var address = await coordinator.UploadAsync(Sheet);
        var none = new Dictionary<string, string>();
        var (first, second) = (await coordinator.OpenFormAsync(address, none, "store"), await lead.OpenFormAsync(address, none, "store"));

        await Task.WhenAll(first(), second());
        await host.StoreSheetsAsync();

        Assert.Equal((2_500, 0, 0, 0, 0), (await host.ImportOfAsync(address)).Counts());
        await using var db = host.OpenDb();
        Assert.Equal(2_500, await db.Readings.CountAsync());
    }

    [Theory, BothDatabases]
    public async Task Whoever_acts_on_a_preview_that_another_has_changed_is_told(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var (coordinator, lead) = (await host.ClientAs(Role.Coordinator, world.One), await host.ClientAs(Role.ProgrammeLead, world.One));
        var address = await coordinator.UploadAsync("Tank,Date,Water\nA001,2027-02-01,11\n");
        var store = await lead.OpenFormAsync(address, new Dictionary<string, string>(), "store");

        await coordinator.PressAsync(address, "columns", ("water-unit", "F"));
        await store();

        Assert.Contains("Somebody else changed this import meanwhile.", await lead.ReadPageAsync(address), StringComparison.Ordinal);
        Assert.Equal(ImportState.Previewed, (await host.ImportOfAsync(address)).State);
    }

    [Theory, BothDatabases]
    public async Task Two_portals_that_store_one_sheet_at_the_same_time_count_every_row_once(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        await using var neighbour = host.Neighbour();
        var client = await host.ClientAs(Role.Coordinator, world.One);
        var address = await client.UploadAsync(Sheet);
        await client.PressAsync(address, "store");
        var id = (await host.ImportOfAsync(address)).Id;

        var done = await Task.WhenAll(RunAsync(host), RunAsync(neighbour));
        if (!done.Any(d => d))
        {
            Assert.True(await RunAsync(host)); // Each met the other in the middle; whoever looks next ends it.
        }

        Assert.Equal((2_500, 0, 0, 0, 0), (await host.ImportOfAsync(address)).Counts());
        await using var db = host.OpenDb();
        Assert.Equal(2_500, await db.Readings.CountAsync());

        Task<bool> RunAsync(PortalHost portal) => portal.CallAsync<StoreRows, bool>(rows => rows.RunAsync(id, CancellationToken.None));
    }

    [Theory, BothDatabases]
    public async Task A_portal_that_stopped_before_it_counted_what_it_stored_counts_it_after_all(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var client = await host.ClientAs(Role.Coordinator, world.One);
        var (address, _) = await host.ImportAsync(client, Sheet);
        await using (var db = host.OpenDb())
        {
            // As it would stand had the portal stopped after storing its last two batches, before it wrote down the count.
            var import = await db.ReadingImports.SingleAsync();
            (import.State, import.Handled, import.Accepted, import.FinishedAt) = (ImportState.Running, 1_000, 1_000, null);
            await db.SaveChangesAsync();
        }

        Assert.Equal(0, await host.StoreSheetsAsync()); // It may be somebody else's work: it has only just moved.
        Assert.Equal(1, await host.StoreSheetsAsync());

        Assert.Equal((2_500, 0, 0, 0, 0), (await host.ImportOfAsync(address)).Counts());
    }

    [Theory, BothDatabases]
    public async Task An_old_row_of_a_sheet_does_not_clear_a_newer_flag(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var client = await host.ClientAs(Role.Coordinator, world.One);
        await host.AcceptAsync(Sent.Water(world.One.Tanks[0], TestWorld.Now.AddHours(-1), 16.5));
        await host.JudgeAsync();
        var before = await OpenAsync();
        Assert.NotEmpty(before);

        await host.ImportAsync(client, "Tank,Date,Time,Water °F\nA001,2027-02-02,8:15,51\n");
        await host.JudgeAsync();

        Assert.Empty(before.Except(await OpenAsync()));

        async Task<List<FlagKind>> OpenAsync()
        {
            await using var db = host.OpenDb();
            return await db.Flags.Where(f => f.TankId == world.One.Tanks[0].Id && f.State == FlagState.Open).Select(f => f.Kind).Order().ToListAsync();
        }
    }
}
