using System.Net;
using Microsoft.Extensions.DependencyInjection;
using Tankside.Portal.Flags;
using Tankside.Portal.Shell;
using Tankside.Storage;

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

    private static async Task<string> ReadyAsync(PortalHost host)
    {
        using var answer = await host.Anonymous().GetAsync("/health/ready");
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        return await answer.Content.ReadAsStringAsync();
    }
}
