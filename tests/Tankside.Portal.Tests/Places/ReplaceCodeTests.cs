using System.Net;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Portal.Accounts;
using Tankside.Portal.Places.Labels;
using Tankside.Portal.Tests.Accounts;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Places;

/// <summary>A lost code is void at once, and the tank is never without one.</summary>
public class ReplaceCodeTests
{
    private static readonly Dictionary<string, string> Nothing = [];

    [Theory, BothDatabases]
    public async Task A_replaced_code_is_dead_at_once_and_the_new_one_opens_the_same_tank(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var old = world.One.RoomCodes[0];
        var teacher = await host.ClientAs(Role.Teacher, world.One);
        Assert.Contains(RoomCodes.Grouped(old.Code), await teacher.WordsAsync("/labels/A001/replace"), StringComparison.Ordinal);

        var sent = await teacher.PostFormAsync("/labels/A001/replace", Nothing, "replace");
        var page = await teacher.GetAsync(sent.Headers.Location);

        await using var db = host.OpenDb();
        var codes = await db.RoomCodes.Where(c => c.TankId == old.TankId).ToListAsync();
        var valid = Assert.Single(codes, c => c.RevokedAt is null);
        Assert.Equal((host.Now, host.Now), (valid.IssuedAt, codes.Single(c => c.Id == old.Id).RevokedAt!.Value));
        Assert.Equal((RoomCodes.Length, true), (valid.Code.Length, valid.Code.All(RoomCodes.Alphabet.Contains)));
        Assert.Equal(HttpStatusCode.NotFound, (await host.Anonymous().GetAsync($"/t/{old.Code}")).StatusCode);
        Assert.Contains("A001", await host.Anonymous().WordsAsync($"/t/{valid.Code}"), StringComparison.Ordinal);
        Assert.Equal($"The old code of A001 stopped at 08:15. The new one is {RoomCodes.Grouped(valid.Code)}: print its label and put it over the old one.", await page.NoticeAsync());
        Assert.Contains("Print the label of A001 (PDF)", await page.WordsAsync(), StringComparison.Ordinal);
        Assert.Contains("replaced Wednesday 3 February 2027, 08:15; the one before is void", await teacher.WordsAsync("/labels"), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task Of_two_who_replace_the_same_code_at_once_the_second_is_told(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var old = world.One.RoomCodes[0];

        var outcomes = await Task.WhenAll(ReplaceAsync(host, world, "A001", old.Id), ReplaceAsync(host, world, "A001", old.Id));

        Assert.Single(outcomes.OfType<CodeOutcome.Issued>());
        Assert.Single(outcomes.OfType<CodeOutcome.Crossed>());
        await using var db = host.OpenDb();
        Assert.Equal(1, await db.RoomCodes.CountAsync(c => c.TankId == old.TankId && c.RevokedAt == null));
    }

    [Theory, BothDatabases]
    public async Task The_same_form_sent_again_does_not_kill_the_code_it_made(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var coordinator = await host.ClientAs(Role.Coordinator, world.One);
        var send = await coordinator.OpenFormAsync("/labels/A002/replace", Nothing, "replace");

        await send();
        var again = await coordinator.GetAsync((await send()).Headers.Location);

        Assert.Contains("Somebody else replaced the code of A002 meanwhile.", await again.WordsAsync(), StringComparison.Ordinal);
        await using var db = host.OpenDb();
        Assert.Equal(2, await db.RoomCodes.CountAsync(c => c.TankId == world.One.Tanks[1].Id));
    }

    [Theory, BothDatabases]
    public async Task A_tank_without_a_code_gets_one(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        await host.SeedAsync(db => LabelTests.AddTank(db, world.One, 10, withCode: false));
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);
        Assert.Contains("1 of 3 tanks have no code yet.", await lead.WordsAsync("/labels"), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotFound, (await lead.GetAsync("/labels/tanks/A010.pdf")).StatusCode);

        var sent = await lead.PostFormAsync("/labels/A010/replace", Nothing, "replace");

        Assert.StartsWith("A010 has a code now:", (await (await lead.GetAsync(sent.Headers.Location)).NoticeAsync())!, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.OK, (await lead.GetAsync("/labels/tanks/A010.pdf")).StatusCode);
        Assert.Contains("All 3 tanks have their codes.", await lead.WordsAsync("/labels"), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task All_missing_codes_are_made_with_one_press_and_the_others_stay(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        await host.SeedAsync(db =>
        {
            LabelTests.AddTank(db, world.One, 10, withCode: false);
            LabelTests.AddTank(db, world.One, 11, withCode: false).ClosedAt = host.Now;
            LabelTests.AddTank(db, world.One, 12, withCode: false);
            LabelTests.AddTank(db, world.Two, 13, withCode: false);
        });
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);

        var sent = await lead.PostFormAsync("/labels", Nothing, "missing");

        Assert.StartsWith("2 codes are made.", (await (await lead.GetAsync(sent.Headers.Location)).NoticeAsync())!, StringComparison.Ordinal);
        await using var db = host.OpenDb();
        Assert.Equal(world.One.RoomCodes.Length + world.Two.RoomCodes.Length + 2, await db.RoomCodes.CountAsync(c => c.RevokedAt == null));
        Assert.Empty(await db.RoomCodes.Where(c => c.RevokedAt != null).ToListAsync());
    }

    [Theory, BothDatabases]
    public async Task Another_schools_code_is_not_found_and_stays(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var teacher = new CurrentUser(world.One.People[Role.Teacher].Id, world.One.Programme.Id, Role.Teacher, world.One.Schools[0].Id);

        var outcome = await host.CallAsync<ReplaceCode, CodeOutcome>(replace =>
            replace.HandleAsync(teacher, "A002", world.One.RoomCodes[1].Id, CancellationToken.None));

        Assert.IsType<CodeOutcome.NotFound>(outcome);
        await using var db = host.OpenDb();
        Assert.Empty(await db.RoomCodes.Where(c => c.RevokedAt != null).ToListAsync());
    }

    private static Task<CodeOutcome> ReplaceAsync(PortalHost host, TestWorld world, string tank, Guid? replaces) =>
        host.CallAsync<ReplaceCode, CodeOutcome>(replace => replace.HandleAsync(
            new CurrentUser(world.One.People[Role.Coordinator].Id, world.One.Programme.Id, Role.Coordinator, null), tank, replaces, CancellationToken.None));
}
