using System.Diagnostics;
using System.Globalization;

namespace Tankside.Load.Clock;

/// <summary>
/// A clock whose hands somebody else moves: a file says what it shows at which moment of the real clock, and how fast it goes. Everybody who
/// reads the same file sees the same time, also a portal that is killed and starts again. What is waited for goes by the same speed, but is
/// not moved by a jump, as on a real machine.
/// </summary>
public sealed class ShownTime(string file) : TimeProvider
{
    private static readonly TimeSpan LooksAgain = TimeSpan.FromMilliseconds(100);

    private readonly Lock turning = new();
    private Hands hands = Read(file);
    private long readAt = Stopwatch.GetTimestamp();

    /// <summary>How much faster than the real clock it goes.</summary>
    public double Speed => Now().Speed;

    /// <summary>Makes the file, or moves the hands.</summary>
    public static void Set(string file, DateTime shows, double speed = 1)
    {
        var fresh = file + ".new";
        File.WriteAllText(fresh, string.Create(CultureInfo.InvariantCulture, $"{DateTime.UtcNow.Ticks} {shows.Ticks} {speed:R}"));
        File.Move(fresh, file, overwrite: true);
    }

    public override DateTimeOffset GetUtcNow()
    {
        var (at, shows, speed) = Now();
        return new DateTimeOffset(shows + ((DateTime.UtcNow - at) * speed));
    }

    public override long GetTimestamp() => (long)(Stopwatch.GetTimestamp() * Speed);

    public override long TimestampFrequency => Stopwatch.Frequency;

    public override ITimer CreateTimer(TimerCallback callback, object? state, TimeSpan dueTime, TimeSpan period) =>
        new Timer(System.CreateTimer(callback, state, Real(dueTime), Real(period)), this);

    private TimeSpan Real(TimeSpan time) => time <= TimeSpan.Zero ? time : TimeSpan.FromTicks(Math.Max(TimeSpan.TicksPerMillisecond, (long)(time.Ticks / Speed)));

    private Hands Now()
    {
        lock (turning)
        {
            if (Stopwatch.GetElapsedTime(readAt) > LooksAgain)
            {
                hands = Read(file);
                readAt = Stopwatch.GetTimestamp();
            }

            return hands;
        }
    }

    private static Hands Read(string file)
    {
        var words = File.ReadAllText(file).Split(' ');
        return new Hands(
            new DateTime(long.Parse(words[0], CultureInfo.InvariantCulture), DateTimeKind.Utc),
            new DateTime(long.Parse(words[1], CultureInfo.InvariantCulture), DateTimeKind.Utc),
            double.Parse(words[2], CultureInfo.InvariantCulture));
    }

    /// <param name="At">By the real clock.</param>
    private sealed record Hands(DateTime At, DateTime Shows, double Speed);

    private sealed class Timer(ITimer inner, ShownTime clock) : ITimer
    {
        public bool Change(TimeSpan dueTime, TimeSpan period) => inner.Change(clock.Real(dueTime), clock.Real(period));

        public void Dispose() => inner.Dispose();

        public ValueTask DisposeAsync() => inner.DisposeAsync();
    }
}
