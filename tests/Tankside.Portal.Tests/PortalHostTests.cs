using System.Net;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Tankside.Portal.Shell;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests;

public class PortalHostTests
{
    [Theory, BothDatabases]
    public async Task A_portal_on_a_fresh_database_is_ready_and_holds_nothing(DatabaseKind kind)
    {
        await using var host = await PortalHost.CreateAsync(kind);

        var answer = await host.Anonymous().GetAsync("/health/ready");

        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        await using var db = host.OpenDb();
        Assert.Equal(kind == DatabaseKind.Sqlite, db.Database.IsSqlite());
        Assert.Empty(await db.Programmes.ToListAsync());
    }

    [Theory, BothDatabases]
    public async Task A_page_that_needs_a_member_sends_a_stranger_to_the_sign_in(DatabaseKind kind)
    {
        await using var host = await PortalHost.CreateAsync(kind);

        var answer = await host.Anonymous().GetAsync("/not-a-page-that-anyone-opened");

        Assert.NotEqual(HttpStatusCode.OK, answer.StatusCode);
    }

    [Theory, BothDatabases]
    public async Task The_made_up_world_is_seen_by_the_portal(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;

        var codes = await host.CallAsync<IDbContextFactory<HatcheryDb>, List<string>>(async databases =>
        {
            await using var db = await databases.CreateDbContextAsync();
            return await db.Tanks.OrderBy(t => t.Code).Select(t => t.Code).ToListAsync();
        });

        Assert.Equal(["A001", "A002", "B001", "B002"], codes);
        Assert.Equal("A001", world.One.Tanks[0].Code);
    }

    [Theory]
    [InlineData("Development")]
    [InlineData("Production")]
    public async Task A_portal_runs_in_the_environment_that_the_test_names(string environment)
    {
        await using var host = await PortalHost.CreateAsync(DatabaseKind.Sqlite, new PortalHostSettings { Environment = environment });

        Assert.Equal(environment, host.Services.GetRequiredService<IHostEnvironment>().EnvironmentName);
        Assert.Equal(environment == "Development", host.Services.GetRequiredService<TanksideOptions>().DemoSeason);
    }

    [Fact]
    public async Task Time_stands_still_until_the_test_moves_it()
    {
        await using var host = await PortalHost.CreateAsync(DatabaseKind.Sqlite);

        host.Time.Advance(TimeSpan.FromDays(1));

        Assert.Equal(TestWorld.Now.AddDays(1), host.Services.GetRequiredService<TimeProvider>().GetUtcNow().UtcDateTime);
    }

    [PostgresFact]
    public void PostgreSQL_is_there_for_the_second_half_of_every_test() => Assert.Null(PostgresServer.WhyUnavailable);
}
