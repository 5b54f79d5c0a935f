using Microsoft.Extensions.DependencyInjection;
using Tankside.Portal.Flags;
using Tankside.Storage;

namespace Tankside.Portal.Tests.Flags;

public class JudgeWorkerTests
{
    [Fact]
    public async Task A_clock_put_back_an_hour_does_not_keep_the_judge_from_looking_each_minute()
    {
        var (host, _) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite, new PortalHostSettings { JudgeWorks = true });
        await using var portal = host;
        var health = host.Services.GetRequiredService<JudgeHealth>();
        var began = host.Now;
        await UntilAsync(host, () => health.LastSweepAt == began);

        host.Time.AdjustTime(host.Time.GetUtcNow().AddHours(-1));
        await UntilAsync(host, () => health.LastSweepAt < began, step: JudgeWorker.Sweep);

        Assert.True(health.LastSweepAt > began.AddHours(-1));
    }

    /// <summary>The judge works by itself, so it is given time to; the clock goes on by a step until it has.</summary>
    private static async Task UntilAsync(PortalHost host, Func<bool> there, TimeSpan step = default)
    {
        for (var tried = 0; !there(); tried++)
        {
            Assert.True(tried < 50, "It was not done.");
            host.Time.Advance(step);
            await Task.Delay(100);
        }
    }
}
