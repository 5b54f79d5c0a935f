using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Eggs.Runs;

/// <summary>What a school says of its door and of when it takes deliveries reaches the plan and the driver.</summary>
public class DoorNotesTests
{
    [Theory, BothDatabases]
    public async Task A_driver_reads_where_to_park_and_comes_when_deliveries_are_taken(DatabaseKind kind)
    {
        var (host, world, run, coordinator) = await RunSteps.StartAsync(kind);
        await using var _ = host;
        await host.SeedAsync(db =>
        {
            foreach (var school in db.Schools.Where(s => s.ProgrammeId == world.One.Programme.Id))
            {
                (school.DoorNotes, school.DeliverFrom) = ($"Blue door of {school.Name}", new TimeOnly(10, 30));
            }
        });

        await host.PlanAsync(coordinator, run.Run.Id);

        var stops = await host.StopsAsync(run.Run.Id);
        Assert.All(stops, s => Assert.True(s.Begins >= new TimeOnly(10, 30)));
        var driver = run.Drivers.Single(d => d.Id == stops[0].DriverId);
        Assert.Contains("At the door:</strong> Blue door of ", await host.Anonymous().GetStringAsync($"/run/{driver.Code}"), StringComparison.Ordinal);
        var page = await coordinator.GetStringAsync($"/runs/{run.Run.Id}/stops/{stops[0].Id}");
        Assert.Contains("Blue door of", page, StringComparison.Ordinal);
        Assert.Contains("for deliveries 10:30 to 15:15", page, StringComparison.Ordinal);
    }
}
