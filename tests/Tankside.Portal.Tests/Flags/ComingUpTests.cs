using Tankside.Hatchery.Kit;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Releases.Bookings;
using Tankside.Portal.Tests.Eggs.Runs;
using Tankside.Portal.Tests.Releases.Bookings;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Flags;

/// <summary>What is due today and this week stands on the first page of those who deal with it, with the way there.</summary>
public class ComingUpTests
{
    [Theory, BothDatabases]
    public async Task Each_role_reads_what_is_due_to_it_and_where_it_is_dealt_with(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var one = world.One;
        var run = new MadeRun(one);
        var settled = BookingSteps.Settled(one, change: b => b.On = new(2027, 2, 8));
        var asked = BookingSteps.Settled(one, tank: 1, change: b => (b.State, b.On, b.SiteId) = (BookingState.Asked, null, null));
        await host.SeedAsync(db =>
        {
            run.AddTo(db);
            db.AddRange(settled, asked);
            db.Add(new KitItem { Id = Guid.NewGuid(), ProgrammeId = one.Programme.Id, Kind = KitKind.Pump, Serial = "PU-7", Make = "Fenwick", Condition = KitCondition.Faulty });
            db.Add(new Closure { Id = Guid.NewGuid(), ProgrammeId = one.Programme.Id, FirstDay = new(2027, 2, 5), LastDay = new(2027, 2, 5), Reason = "Teachers’ day" });
            db.Add(new Closure { Id = Guid.NewGuid(), ProgrammeId = one.Programme.Id, FirstDay = new(2027, 3, 5), LastDay = new(2027, 3, 5), Reason = "Too far ahead" });
        });

        foreach (var role in new[] { Role.Coordinator, Role.ProgrammeLead })
        {
            var page = await (await host.ClientAs(role, one)).GetStringAsync("/");

            var (today, week) = Parts(page);
            Assert.Contains($"href=\"/runs/{run.Run.Id}\"", today, StringComparison.Ordinal);
            Assert.Contains($"href=\"/releases/bookings/{asked.Id}/settle\"", today, StringComparison.Ordinal);
            Assert.DoesNotContain($"{settled.Id}", today, StringComparison.Ordinal);
            Assert.Contains($"href=\"/releases/bookings/{settled.Id}\"", week, StringComparison.Ordinal);
            Assert.Contains("Teachers", week, StringComparison.Ordinal);
            Assert.DoesNotContain("Too far ahead", page, StringComparison.Ordinal);
        }

        var agency = Parts(await (await host.ClientAs(Role.AgencyContact, one)).GetStringAsync("/"));
        Assert.Contains($"href=\"/releases/bookings/{settled.Id}\"", agency.Week, StringComparison.Ordinal);
        Assert.DoesNotContain("Delivery run", agency.Today, StringComparison.Ordinal);
        var kit = Parts(await (await host.ClientAs(Role.KitHand, one)).GetStringAsync("/"));
        Assert.Contains("href=\"/kit/PU-7\"", kit.Today, StringComparison.Ordinal);
        var others = Parts(await (await host.ClientAs(Role.ProgrammeLead, world.Two)).GetStringAsync("/"));
        Assert.Contains("Nothing else is due today.", others.Today, StringComparison.Ordinal);
        Assert.DoesNotContain("/releases/bookings/", others.Week, StringComparison.Ordinal);
    }

    private static (string Today, string Week) Parts(string page)
    {
        var (today, week) = (page.IndexOf("id=\"today\"", StringComparison.Ordinal), page.IndexOf("id=\"week\"", StringComparison.Ordinal));
        Assert.True(today > 0 && week > today, "the page has no part for today and for the week");
        return (page[today..week], page[week..page.IndexOf("</main>", StringComparison.Ordinal)]);
    }
}
