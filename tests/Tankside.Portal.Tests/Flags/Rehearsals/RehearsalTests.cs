using System.Net;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Flags.Rehearsals;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Portal.Flags.Rehearsals;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Flags.Rehearsals;

/// <summary>A made-up morning from its start to its result, as the people of a programme work it.</summary>
public class RehearsalTests
{
    private const string Mark = "Rehearsal: none of these fish exist.";

    private static readonly IReadOnlyList<string> Best = new CallOrders(Rehearsing.Morning(4711), 12).Best();

    [Theory, BothDatabases]
    public async Task A_coordinator_works_a_morning_and_reads_what_the_order_saved(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var coordinator = await host.ClientAs(Role.Coordinator, world.One);
        var address = await coordinator.StartAsync("4711");

        Assert.Contains("It is 08:50 on Thursday 18 February. Whom do you ring first?", await coordinator.ReadAsync(address), StringComparison.Ordinal);
        var called = await coordinator.CallAsync(address, Best[1]);
        Assert.Contains("It is 09:02", called, StringComparison.Ordinal);
        Assert.Contains("Rung at 08:50.", called, StringComparison.Ordinal);
        Assert.Contains("What to say first", called, StringComparison.Ordinal);
        await coordinator.CallAsync(address, Best[0]);
        Assert.Contains($"The call of tank {Best[0]} is taken back", await coordinator.MoveAsync(address, "undo"), StringComparison.Ordinal);
        await coordinator.CallAsync(address, Best[2]);
        Assert.Contains("2 calls are made.", await coordinator.ReadAsync(address), StringComparison.Ordinal);
        var result = await coordinator.MoveAsync(address, "finish");

        var expected = RehearsalResult.Of(Rehearsing.Morning(4711), [Best[1], Best[2]], 12);
        Assert.Contains($"Your order saved about {expected.Saved:0} fish; the best order {expected.Best:0}.", result, StringComparison.Ordinal);
        Assert.Contains($"The round’s own order saves {expected.Round:0}", result, StringComparison.Ordinal);
        Assert.Contains($"{expected.Tanks.Count - 2} tanks in trouble were not rung", result, StringComparison.Ordinal);
        Assert.Contains($"about {expected.Saved:0} of {expected.Best:0}", await coordinator.ReadAsync("/rehearsal"), StringComparison.Ordinal);
        await using var db = host.OpenDb();
        var row = await db.Rehearsals.SingleAsync();
        Assert.Equal([Best[1], Best[2]], row.Called);
        Assert.Equal((host.Now, 5), (row.FinishedAt, row.Version));
    }

    [Theory, BothDatabases]
    public async Task Every_screen_says_that_none_of_the_fish_exist_and_the_tanks_stand_by_their_codes(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var coordinator = await host.ClientAs(Role.Coordinator, world.One);
        var address = await coordinator.StartAsync("4711");

        var page = await coordinator.GetStringAsync(address);
        var codes = Rehearsing.Morning(4711).Tanks.Select(t => page.IndexOf($"id=\"call-{t.Code}\"", StringComparison.Ordinal)).ToList();
        Assert.DoesNotContain(-1, codes);
        Assert.Equal(codes.Order(), codes);
        Assert.DoesNotContain("act now", page, StringComparison.Ordinal);
        Assert.DoesNotContain("data-urgency", page, StringComparison.Ordinal);

        Assert.Contains(Mark, await coordinator.ReadAsync(address), StringComparison.Ordinal);
        Assert.Contains(Mark, await coordinator.ReadAsync($"{address}?tank={Best[0]}"), StringComparison.Ordinal);
        Assert.Contains(Mark, await coordinator.CallAsync(address, Best[0]), StringComparison.Ordinal);
        Assert.Contains(Mark, await coordinator.MoveAsync(address, "finish"), StringComparison.Ordinal);
        foreach (var tank in Rehearsing.Morning(4711).Tanks)
        {
            Assert.Contains(Mark, await coordinator.ReadAsync($"{address}?tank={tank.Code}"), StringComparison.Ordinal);
        }
    }

    [Theory, BothDatabases]
    public async Task Whoever_acts_on_an_older_state_is_told_and_changes_nothing(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var coordinator = await host.ClientAs(Role.Coordinator, world.One);
        var address = await coordinator.StartAsync("4711");
        await coordinator.CallAsync(address, Best[0]);

        Assert.Contains("went on in another window", await coordinator.CallAsync(address, Best[1], version: 0), StringComparison.Ordinal);
        Assert.Contains("went on in another window", await coordinator.MoveAsync(address, "undo", version: 0), StringComparison.Ordinal);
        Assert.Contains("went on in another window", await coordinator.MoveAsync(address, "finish", version: 0), StringComparison.Ordinal);
        Assert.Contains($"Tank {Best[0]} has been called already.", await coordinator.CallAsync(address, Best[1], version: 1, sent: Best[0]), StringComparison.Ordinal);
        Assert.Contains("Choose a tank first.", await coordinator.CallAsync(address, Best[1], version: 1, sent: "A001"), StringComparison.Ordinal);

        await using var db = host.OpenDb();
        var row = await db.Rehearsals.SingleAsync();
        Assert.Equal([Best[0]], row.Called);
        Assert.Null(row.FinishedAt);
    }

    [Theory, BothDatabases]
    public async Task A_lead_starts_one_for_a_coordinator_looks_on_and_makes_no_call_of_it(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var (lead, coordinator) = (await host.ClientAs(Role.ProgrammeLead, world.One), await host.ClientAs(Role.Coordinator, world.One));

        await lead.PostFormAsync("/rehearsal", StartSteps.Start("77", world.One.People[Role.Coordinator].Id), "start");
        await using var db = host.OpenDb();
        var row = await db.Rehearsals.SingleAsync();
        var address = $"/rehearsal/{row.Id}";

        Assert.Equal((77, world.One.People[Role.Coordinator].Id, world.One.People[Role.ProgrammeLead].Id), (row.Seed, row.WorkedBy, row.StartedBy));
        Assert.Contains("Morning 77", await coordinator.ReadAsync("/rehearsal"), StringComparison.Ordinal);
        Assert.Contains("Only Coordinator A makes the calls.", await lead.ReadAsync($"{address}?tank=R01"), StringComparison.Ordinal);
        Assert.Contains("Only the person it was started for", await CallAnywayAsync(host, world.One, Role.ProgrammeLead, row.Id), StringComparison.Ordinal);
        await coordinator.CallAsync(address, "R01");
        Assert.Contains("One call is made.", await lead.ReadAsync(address), StringComparison.Ordinal);
        await coordinator.MoveAsync(address, "finish");
        Assert.Contains("Coordinator A’s order saved about", await lead.ReadAsync(address), StringComparison.Ordinal);
        Assert.Contains("This morning is finished.", await CallAnywayAsync(host, world.One, Role.Coordinator, row.Id), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task A_leads_own_morning_and_one_of_another_programme_are_not_found(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);
        await lead.PostFormAsync("/rehearsal", StartSteps.Start("7", world.One.People[Role.ProgrammeLead].Id), "start");
        await using var db = host.OpenDb();
        var id = (await db.Rehearsals.SingleAsync()).Id;

        foreach (var other in new[] { await host.ClientAs(Role.Coordinator, world.One), await host.ClientAs(Role.ProgrammeLead, world.Two) })
        {
            Assert.Equal(HttpStatusCode.NotFound, (await other.GetAsync($"/rehearsal/{id}")).StatusCode);
            Assert.DoesNotContain($"{id}", await other.GetStringAsync("/rehearsal"), StringComparison.Ordinal);
        }

        await (await host.ClientAs(Role.Teacher, world.One)).AssertNotTheirsAsync($"/rehearsal/{id}");
        await (await host.ClientAs(Role.KitHand, world.One)).AssertNotTheirsAsync("/rehearsal");
    }

    [Theory, BothDatabases]
    public async Task Nobody_of_another_role_or_programme_can_be_given_one_and_a_wrong_number_is_asked_again(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);

        foreach (var (number, person) in new (string, Guid?)[]
        {
            ("", null), ("", world.One.People[Role.Teacher].Id), ("", world.Two.People[Role.Coordinator].Id),
            ("0", world.One.People[Role.Coordinator].Id), ("eleven", world.One.People[Role.Coordinator].Id), ("100000", world.One.People[Role.Coordinator].Id),
        })
        {
            var answer = await lead.PostFormAsync("/rehearsal", StartSteps.Start(number, person), "start");
            Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
            Assert.Contains("validation-message", await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        }

        await using var db = host.OpenDb();
        Assert.Equal(0, await db.Rehearsals.CountAsync());
    }

    [Theory, BothDatabases]
    public async Task A_programmes_own_length_of_a_call_moves_its_clock(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        await host.SeedAsync(db => db.Add(new ProgrammeSetting { ProgrammeId = world.One.Programme.Id, Key = Limits.RehearsalCallMinutes.Key, Value = 30 }));
        var coordinator = await host.ClientAs(Role.Coordinator, world.One);
        var address = await coordinator.StartAsync("4711");

        Assert.Contains("It is 09:20", await coordinator.CallAsync(address, Best[0]), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task A_morning_is_taken_off_the_list(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var coordinator = await host.ClientAs(Role.Coordinator, world.One);
        var address = await coordinator.StartAsync("4711");

        await coordinator.PostFormAsync("/rehearsal", new Dictionary<string, string> { ["Removed"] = address.Split('/')[^1] }, "remove");

        Assert.Contains("Removed: morning 4711.", await coordinator.ReadAsync("/rehearsal"), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotFound, (await coordinator.GetAsync(address)).StatusCode);
    }

    /// <summary>A call from a page that has no form for it any more.</summary>
    private static async Task<string> CallAnywayAsync(PortalHost host, TestProgramme programme, Role role, Guid id)
    {
        var user = new CurrentUser(programme.People[role].Id, programme.Programme.Id, role, null);
        var told = await host.CallAsync<WorkRehearsal, Notice?>(work => work.CallAsync(user, id, "R02", 0, CancellationToken.None));
        return told!.Text;
    }
}
