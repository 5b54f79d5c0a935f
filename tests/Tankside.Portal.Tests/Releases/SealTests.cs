using System.Net;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Releases;
using Tankside.Storage;
using Tankside.Storage.Seasons;
using Tankside.Testing;
using static Tankside.Portal.Tests.Releases.LedgerForms;

namespace Tankside.Portal.Tests.Releases;

/// <summary>A season's account is closed, stays as it was, and is opened again only for a reason.</summary>
public class SealTests
{
    [Theory, BothDatabases]
    public async Task A_sealed_season_takes_no_line_and_its_file_stays_as_it_was(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var lead = await FinishedAsync(host, world.One);
        var before = await lead.GetByteArrayAsync("/totals/2026-27.csv");

        var told = await SealAsync(lead);
        Assert.Contains("Season 2026-27 is sealed.", told, StringComparison.Ordinal);
        Assert.Contains(Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData(before)), told, StringComparison.Ordinal);
        Assert.Contains("The account of this season is sealed", await lead.RefusedAsync("/ledger/A001", Line(LedgerKind.FryLoss, "1"), "line"), StringComparison.Ordinal);
        Assert.Contains("The account of this season is sealed", await lead.RefusedAsync("/ledger/A001/move", Fields(("To", "A002"), ("Count", "1")), "move"), StringComparison.Ordinal);
        Assert.Contains("The account of this season is sealed", await lead.RefusedAsync(
            "/releases", Release(world.One.Tanks[0], world.One.Site, world.One.Permit, "1"), "release"), StringComparison.Ordinal);

        // A class's reading is never turned away: its line stands in the ledger and beside the seal, not in the account.
        await host.SeedAsync(db => db.Ledger.Add(new LedgerEntry
        {
            SeasonId = world.One.Season.Id,
            TankId = world.One.Tanks[0].Id,
            Kind = LedgerKind.FryLoss,
            Count = 4,
            At = host.Now,
            EnteredAt = host.Now.AddHours(1),
            Reading = Guid.NewGuid(),
        }));
        Assert.Equal(before, await lead.GetByteArrayAsync("/totals/2026-27.csv"));
        Assert.Contains("1 line has come with readings since", await lead.ReadAsync("/season/account"), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task Opening_it_again_needs_a_reason_which_stays_and_the_files_follow_the_ledger(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var lead = await FinishedAsync(host, world.One);
        await SealAsync(lead);

        Assert.Contains("Say why it is opened again.", await lead.RefusedAsync("/season/account", Fields(("Why", " ")), "reopen"), StringComparison.Ordinal);
        var page = await lead.SendAsync("/season/account", Fields(("Why", "one release was missing")), "reopen");

        Assert.Contains("is open again", page, StringComparison.Ordinal);
        Assert.Contains("one release was missing", page, StringComparison.Ordinal);
        await lead.SendAsync("/ledger/A001", Line(LedgerKind.FryLoss, "4"), "line");
        Assert.Equal("4", FilesOfTotals.Csv(await lead.GetByteArrayAsync("/totals/2026-27.csv"))[0]["fry_losses"]);
        await SealAsync(lead);
        await using var db = host.OpenDb();
        Assert.Equal((2, 1), (await db.SeasonSeals.CountAsync(), await db.SeasonSeals.CountAsync(s => s.ReopenedAt == null)));
    }

    /// <summary>The line is sent while the seal is written and not there to be seen yet: it has to wait for it, and must not land beside it.</summary>
    [Theory, BothDatabases]
    public async Task A_line_sent_while_a_season_is_being_sealed_waits_and_is_refused(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);
        await using var db = host.OpenDb();
        await using var turn = await SeasonTurn.AloneAsync(db, world.One.Season.Id, default);
        db.SeasonSeals.Add(new SeasonSeal
        {
            Id = Guid.NewGuid(),
            SeasonId = world.One.Season.Id,
            SealedAt = host.Now,
            SealedBy = world.One.People[Role.ProgrammeLead].Id,
            Checksum = new string('0', 64),
            Account = [1],
        });
        await db.SaveChangesAsync();

        var line = Task.Run(() => lead.RefusedAsync("/ledger/A001", Line(LedgerKind.FryLoss, "1"), "line"));
        await using var watch = host.OpenDb();
        while (kind == DatabaseKind.PostgreSQL && !line.IsCompleted && await WaitingAsync(watch) == 0)
        {
        }

        await turn.CommitAsync();
        Assert.Contains("The account of this season is sealed", await line, StringComparison.Ordinal);
        Assert.False(await watch.Ledger.AnyAsync(e => e.Kind == LedgerKind.FryLoss));
    }

    private static Task<int> WaitingAsync(HatcheryDb db) => db.Database
        .SqlQueryRaw<int>("SELECT count(*)::int AS \"Value\" FROM pg_stat_activity WHERE datname = current_database() AND wait_event_type = 'Lock'").SingleAsync();

    [Theory, BothDatabases]
    public async Task Fish_in_tanks_and_a_changed_ledger_stand_against_a_seal(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);
        Assert.Contains("296 fish are still in A001, A002", await lead.ReadAsync("/season/account"), StringComparison.Ordinal);

        var finished = await FinishedAsync(host, world.One);
        var refused = await finished.RefusedAsync("/season/account", Fields(("Id", Guid.NewGuid().ToString()), ("AsShown", new string('0', 64))), "seal");

        Assert.Contains("The ledger changed while you looked.", refused, StringComparison.Ordinal);
        await using var db = host.OpenDb();
        Assert.False(await db.SeasonSeals.AnyAsync());
    }

    [Fact]
    public async Task What_is_kept_of_a_sealed_account_gives_the_same_files()
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        var lead = await FinishedAsync(host, world.One);
        await SealAsync(lead);
        var (pdf, xlsx) = (await lead.GetByteArrayAsync("/totals/2026-27.pdf"), await lead.GetByteArrayAsync("/totals/2026-27.xlsx"));

        // Next season the same tank is opened again, and the school has another name: neither reaches back.
        await host.SeedAsync(db =>
        {
            db.Tanks.Single(t => t.Id == world.One.Tanks[0].Id).ClosedAt = null;
            db.Schools.Single(s => s.Id == world.One.Schools[0].Id).Name = "Another";
        });

        Assert.Equal(pdf, await lead.GetByteArrayAsync("/totals/2026-27.pdf"));
        Assert.Equal(xlsx, await lead.GetByteArrayAsync("/totals/2026-27.xlsx"));
        Assert.Contains("This account is sealed", await lead.ReadAsync("/totals"), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.OK, (await lead.GetAsync("/totals?by=permit")).StatusCode);
    }

    /// <summary>Both tanks released and closed.</summary>
    private static async Task<HttpClient> FinishedAsync(PortalHost host, TestProgramme one)
    {
        var lead = await host.ClientAs(Role.ProgrammeLead, one);
        foreach (var tank in one.Tanks)
        {
            await lead.SendAsync("/releases", Release(tank, one.Site, one.Permit, "60", ("EmptiesTank", "true")), "release");
        }

        return lead;
    }

    private static async Task<string> SealAsync(HttpClient lead)
    {
        var page = await lead.ReadAsync("/season/account");
        var shown = System.Text.RegularExpressions.Regex.Match(page, "name=\"Input.AsShown\" value=\"([0-9a-f]{64})\"").Groups[1].Value;
        return await lead.SendAsync("/season/account", Fields(("Id", Guid.NewGuid().ToString()), ("AsShown", shown)), "seal");
    }
}
