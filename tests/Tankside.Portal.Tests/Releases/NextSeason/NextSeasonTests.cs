using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Kit;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Releases;
using Tankside.Storage;
using Tankside.Testing;
using static Tankside.Portal.Tests.Releases.LedgerForms;

namespace Tankside.Portal.Tests.Releases.NextSeason;

public class NextSeasonTests
{
    [Theory, BothDatabases]
    public async Task The_next_season_takes_the_tanks_along_and_keeps_codes_and_teachers(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);

        var crossed = await lead.RefusedAsync("/season/new", Fields(("StartsOn", "2027-07-31"), ("EndsOn", "2028-07-30")), "season");
        Assert.Contains("Season 2026-27 runs from 1 Sep 2026 to 31 Jul 2027. Seasons do not overlap", crossed, StringComparison.Ordinal);
        var left = await lead.RefusedAsync("/season/new", new() { ["tank"] = world.One.Tanks[0].Id.ToString() }, "season");
        Assert.Contains("Tank A002 still holds 148 fish by its ledger", left, StringComparison.Ordinal);

        var made = await lead.SendAsync("/season/new", [], "season");

        Assert.Contains("Made: season 2027-28, 1 Aug 2027 to 31 Jul 2028. 2 tanks take part.", made, StringComparison.Ordinal);
        Assert.Contains("Season 2026-27 runs from", made, StringComparison.Ordinal);
        await using var db = host.OpenDb();
        var season = await db.Seasons.SingleAsync(s => s.Name == "2027-28");
        Assert.Equal(["Birch Lane School, Room 1", "Mill Pond School, Room 2"], await db.SeasonTanks.Where(p => p.SeasonId == season.Id).OrderBy(p => p.School).Select(p => p.School + ", " + p.Room).ToListAsync());
        Assert.False((await db.Classrooms.SingleAsync(r => r.Id == world.One.Rooms[1].Id)).NewTeacher);
        Assert.False(await db.RoomCodes.AnyAsync(c => c.RevokedAt != null) || await db.Tanks.AnyAsync(t => t.ClosedAt != null));
        Assert.Equal(0, await db.Seasons.CountAsync(s => s.ProgrammeId == world.Two.Programme.Id && s.Name == "2027-28"));
    }

    [Theory, BothDatabases]
    public async Task New_codes_void_the_old_ones_and_a_tank_left_out_is_closed(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        await host.SeedAsync(db => db.Ledger.Where(e => e.TankId == world.One.Tanks[1].Id).ExecuteDelete());
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);

        var made = await lead.SendAsync("/season/new", new() { ["tank"] = world.One.Tanks[0].Id.ToString(), ["Input.NewCodes"] = "true" }, "season");

        Assert.Contains("1 tank takes part. Their room codes are new: print the labels.", made, StringComparison.Ordinal);
        await using var db = host.OpenDb();
        Assert.Equal(host.Now, (await db.Tanks.SingleAsync(t => t.Code == "A002")).ClosedAt);
        Assert.Equal([true, false], await db.RoomCodes.Where(c => c.TankId == world.One.Tanks[0].Id).OrderBy(c => c.IssuedAt).Select(c => c.RevokedAt != null).ToListAsync());
        Assert.True(await db.RoomCodes.AnyAsync(c => c.TankId == world.One.Tanks[1].Id && c.RevokedAt == null));
    }

    [Theory, BothDatabases]
    public async Task A_tank_opens_for_the_next_season_only_when_the_account_of_the_last_is_not_changed_by_it(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var account = new byte[] { 1, 2, 3 };
        await host.SeedAsync(db => db.Tanks.Where(t => t.ProgrammeId == world.One.Programme.Id).ExecuteUpdate(set => set.SetProperty(t => t.ClosedAt, host.Now.AddDays(-1))));
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);

        var made = await lead.SendAsync("/season/new", [], "season");
        Assert.Contains("A001, A002 stay closed, because the account of season 2026-27 has fish of them unaccounted for and is not sealed.", made, StringComparison.Ordinal);
        await using var db = host.OpenDb();
        Assert.Equal(2, await db.Tanks.CountAsync(t => t.ProgrammeId == world.One.Programme.Id && t.ClosedAt != null));

        var next = await db.Seasons.SingleAsync(s => s.Name == "2027-28");
        Assert.Contains("Taken out: season 2027-28.", await lead.SendAsync($"/season/dates/{next.Id}", [], "take-out"), StringComparison.Ordinal);
        await host.SeedAsync(d => d.Add(new SeasonSeal { Id = Guid.NewGuid(), SeasonId = world.One.Season.Id, SealedAt = host.Now, SealedBy = world.One.People[Role.ProgrammeLead].Id, Checksum = "ab", Account = account }));
        await lead.SendAsync("/season/new", [], "season");
        Assert.Equal(0, await db.Tanks.CountAsync(t => t.ProgrammeId == world.One.Programme.Id && t.ClosedAt != null));
        Assert.Equal(account, (await db.SeasonSeals.SingleAsync()).Account);
        var refused = await lead.RefusedAsync($"/season/dates/{world.One.Season.Id}", Fields(("Name", "Other")), "season");
        Assert.Contains("The account of season 2026-27 is sealed, so its name and days stay.", refused, StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task A_seasons_days_change_as_far_as_its_ledger_lets_them(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);
        var address = $"/season/dates/{world.One.Season.Id}";

        var outside = await lead.RefusedAsync(address, Fields(("StartsOn", "2027-02-01")), "season");
        Assert.Contains("The ledger has lines from 15 Jan 2027 to 15 Jan 2027", outside, StringComparison.Ordinal);
        Assert.Contains("Saved: season 2026-27 b runs from 1 Oct 2026", await lead.SendAsync(address, Fields(("Name", "2026-27 b"), ("StartsOn", "2026-10-01")), "season"), StringComparison.Ordinal);
        Assert.Contains("it is now 2026-27 b", await lead.RefusedAsync(address, Fields(("Name", "mine"), ("Version", "0")), "season"), StringComparison.Ordinal);
        Assert.Contains("is the only one, so it stays", await lead.SendAsync(address, [], "take-out"), StringComparison.Ordinal);
        await lead.SendAsync("/season/new", [], "season");
        Assert.Contains("It stays: it is in use by now", await lead.SendAsync(address, [], "take-out"), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task What_has_changed_since_the_last_season_is_told(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var one = world.One;
        await host.SeedAsync(db => db.AddRange(
            new SeasonTank { SeasonId = one.Season.Id, TankId = one.Tanks[0].Id, School = "Birch Lane School", Room = "Old library" },
            new Tank { Id = Guid.NewGuid(), ProgrammeId = one.Programme.Id, ClassroomId = one.Rooms[0].Id, Code = "A003", Litres = 100 },
            new KitItem { Id = Guid.NewGuid(), ProgrammeId = one.Programme.Id, Serial = "CH-9", Make = "Fenwick", Condition = KitCondition.InRepair },
            new ProgrammeSetting { ProgrammeId = one.Programme.Id, Key = "warm.look.egg", Value = 12.5 }));
        var lead = await host.ClientAs(Role.ProgrammeLead, one);

        var page = await lead.ReadAsync("/season/new");

        Assert.Contains("A001: Birch Lane School, Old library is now Birch Lane School, Room 1", page, StringComparison.Ordinal);
        Assert.Contains("A003 (Birch Lane School, Room 1)", page, StringComparison.Ordinal);
        Assert.Contains("CH-9", page, StringComparison.Ordinal);
        Assert.Contains("P-1, 30 Jun 2027", page, StringComparison.Ordinal);
        Assert.Contains("Eggs and alevins warm: look: 12.5", page, StringComparison.Ordinal);
        Assert.Contains("Mill Pond School, Room 2", page, StringComparison.Ordinal);
    }
}
