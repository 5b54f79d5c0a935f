using System.Net;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Diagnostics.HealthChecks;
using Microsoft.Extensions.Options;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Portal.Flags;
using Tankside.Portal.Shell;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Shell;

/// <summary>What the portal says of itself to whoever watches it.</summary>
public class HealthTests
{
    [Fact]
    public async Task A_judge_that_has_fallen_silent_makes_the_portal_degraded_and_not_unready()
    {
        var (host, _) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _2 = host;
        var judge = host.Services.GetRequiredService<JudgeHealth>();

        // Here none works by itself.
        Assert.Contains("\"sweep\":\"healthy\"", await ReadyAsync(host), StringComparison.Ordinal);
        judge.BeganAt = host.Now;
        host.Time.Advance(TimeSpan.FromMinutes(4));
        Assert.Contains("\"sweep\":\"healthy\"", await ReadyAsync(host), StringComparison.Ordinal);
        host.Time.Advance(TimeSpan.FromMinutes(2));
        Assert.Contains("\"sweep\":\"degraded\"", await ReadyAsync(host), StringComparison.Ordinal);
        judge.LastSweepAt = host.Now;
        Assert.Contains("\"sweep\":\"healthy\"", await ReadyAsync(host), StringComparison.Ordinal);
    }

    [Fact]
    public void The_room_on_the_disk_is_known_before_the_folder_is_made()
    {
        var folder = Directory.CreateTempSubdirectory("tankside-disk-").FullName;

        Assert.True(DiskCheck.FreeBytes(folder) > 0);
        Assert.True(DiskCheck.FreeBytes(Path.Combine(folder, "not", "yet")) > 0);
        Directory.Delete(folder);
    }

    [Theory, BothDatabases]
    public async Task What_is_not_well_is_told_to_the_lead_with_what_to_do_on_the_first_page_and_on_its_own(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        using var lead = await host.ClientAs(Role.ProgrammeLead, world.One);
        using var coordinator = await host.ClientAs(Role.Coordinator, world.One);
        var judge = host.Services.GetRequiredService<JudgeHealth>();
        judge.BeganAt = host.Now.AddMinutes(-6);
        var checks = host.Services.GetRequiredService<HealthCheckService>();
        var publisher = host.Services.GetRequiredService<IHealthCheckPublisher>();
        var todo = CheckWords.Of("sweep").Todo;

        Assert.DoesNotContain("portal itself needs somebody", await lead.GetStringAsync("/"), StringComparison.Ordinal);
        await publisher.PublishAsync(await checks.CheckHealthAsync(c => c.Name == "sweep"), CancellationToken.None);
        Assert.Contains("The portal itself needs somebody: judging of all tanks.", await lead.GetStringAsync("/"), StringComparison.Ordinal);
        Assert.DoesNotContain("portal itself needs somebody", await coordinator.GetStringAsync("/"), StringComparison.Ordinal);
        var page = await lead.GetStringAsync("/installation");
        Assert.Contains("Judging of all tanks", page, StringComparison.Ordinal);
        Assert.Contains("None has ended since the portal began 360 s ago", page, StringComparison.Ordinal);
        Assert.Contains(todo, page, StringComparison.Ordinal);

        judge.LastSweepAt = host.Now;
        judge.Took = TimeSpan.FromSeconds(2);
        page = await lead.GetStringAsync("/installation");
        Assert.Contains("The last ended 0 s ago and took 2.0 s", page, StringComparison.Ordinal);
        Assert.DoesNotContain(todo, page, StringComparison.Ordinal);
        Assert.Contains(kind == DatabaseKind.Sqlite ? "SQLite, one file" : "PostgreSQL", page, StringComparison.Ordinal);
        Assert.Contains("not looked at", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Whatever_is_looked_at_has_a_name_and_something_to_do()
    {
        await using var host = await PortalHost.CreateAsync(DatabaseKind.Sqlite);
        var checks = host.Services.GetRequiredService<IOptions<HealthCheckServiceOptions>>().Value.Registrations.Select(r => r.Name).Append("replica").ToList();

        Assert.Equal(["backup", "clock", "database", "disk", "letters", "replica", "sweep"], checks.Order());
        Assert.All(checks, check => Assert.NotEmpty(CheckWords.Of(check).Todo));
    }

    [Fact]
    public async Task A_folder_without_a_backup_is_told_and_so_is_one_that_is_not_there()
    {
        var folder = Directory.CreateTempSubdirectory("tankside-backups-").FullName;
        foreach (var (named, status, words) in new[]
        {
            (null, HealthStatus.Healthy, "name the folder in Tankside:Backups"), (folder, HealthStatus.Degraded, "no backup lies in"),
            (Path.Combine(folder, "not-there"), HealthStatus.Degraded, "there is no folder"),
        })
        {
            await using var host = await PortalHost.CreateAsync(DatabaseKind.Sqlite, new PortalHostSettings { Keys = new Dictionary<string, string> { ["Tankside:Backups"] = named ?? "" } });
            var found = (await host.Services.GetRequiredService<HealthCheckService>().CheckHealthAsync(c => c.Name == "backup")).Entries["backup"];

            Assert.Equal(status, found.Status);
            Assert.StartsWith(words, found.Description, StringComparison.Ordinal);
        }

        Directory.Delete(folder);
    }

    private static async Task<string> ReadyAsync(PortalHost host)
    {
        using var answer = await host.Anonymous().GetAsync("/health/ready");
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        return await answer.Content.ReadAsStringAsync();
    }
}
