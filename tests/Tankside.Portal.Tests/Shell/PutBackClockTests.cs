using System.Diagnostics;
using Microsoft.EntityFrameworkCore.Diagnostics;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;
using Microsoft.Extensions.Time.Testing;
using Npgsql;
using Tankside.Portal.Flags;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Shell;

/// <summary>A machine's clock that is put back an hour, as a battery or a careless hand does, holds nothing up for that hour.</summary>
public class PutBackClockTests
{
    /// <summary>How long a test looks, in real time.</summary>
    private static readonly TimeSpan Moment = TimeSpan.FromSeconds(30);

    [Theory, BothDatabases]
    public async Task Every_tank_is_judged_again_within_minutes(DatabaseKind kind)
    {
        var time = new Hands();
        var (host, _) = await PortalHost.CreateWithWorldAsync(kind, new PortalHostSettings
        {
            JudgeWorks = true,
            Services = services => services.Replace(ServiceDescriptor.Singleton<TimeProvider>(time)),
        });
        await using var _2 = host;
        var judge = host.Services.GetRequiredService<JudgeHealth>();
        await LookAsync(() => judge.LastSweepAt is not null);
        var before = judge.LastSweepAt!.Value;

        time.PutBack(TimeSpan.FromHours(1));
        var passed = TimeSpan.Zero;
        await LookAsync(() =>
        {
            time.Advance(TimeSpan.FromSeconds(1));
            passed += TimeSpan.FromSeconds(1);
            return judge.LastSweepAt < before;
        });

        Assert.True(passed < TimeSpan.FromMinutes(30), $"It took {passed}.");
    }

    [Fact]
    public async Task Nobody_waits_that_hour_for_a_database_that_is_away()
    {
        var time = new Hands();
        var waits = new WaitsForPrimary(time);
        await using var nowhere = new NpgsqlConnection("Host=127.0.0.1;Port=1;Username=nobody;Timeout=2;Pooling=false");
        var opening = waits.ConnectionOpeningAsync(nowhere, null!, default(InterceptionResult)).AsTask();
        await LookAsync(() => time.Timers > 0); // It was missed, and is waited for.

        time.PutBack(TimeSpan.FromHours(1));
        var passed = TimeSpan.Zero;
        await LookAsync(() =>
        {
            time.Advance(TimeSpan.FromSeconds(1));
            passed += TimeSpan.FromSeconds(1);
            return opening.IsCompleted;
        });

        await Assert.ThrowsAnyAsync<NpgsqlException>(() => opening);
        Assert.True(passed < TimeSpan.FromMinutes(30), $"It took {passed}.");
    }

    private static async Task LookAsync(Func<bool> there)
    {
        for (var watch = Stopwatch.StartNew(); !there(); await Task.Delay(25))
        {
            Assert.True(watch.Elapsed < Moment, "It did not come about in time.");
        }
    }

    /// <summary>A clock whose hands somebody moves; what is counted from its start up, and its timers, go on.</summary>
    private sealed class Hands : TimeProvider
    {
        private readonly FakeTimeProvider steady = new(new DateTimeOffset(TestWorld.Now));
        private long back;
        private int timers;

        /// <summary>How often somebody began to wait by this clock.</summary>
        public int Timers => Volatile.Read(ref timers);

        public void PutBack(TimeSpan by) => Interlocked.Add(ref back, by.Ticks);

        public void Advance(TimeSpan by) => steady.Advance(by);

        public override DateTimeOffset GetUtcNow() => steady.GetUtcNow().AddTicks(-Interlocked.Read(ref back));

        public override long TimestampFrequency => steady.TimestampFrequency;

        public override long GetTimestamp() => steady.GetTimestamp();

        public override ITimer CreateTimer(TimerCallback callback, object? state, TimeSpan dueTime, TimeSpan period)
        {
            Interlocked.Increment(ref timers);
            return steady.CreateTimer(callback, state, dueTime, period);
        }
    }
}
