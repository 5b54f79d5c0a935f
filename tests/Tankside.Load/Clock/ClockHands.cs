using Tankside.Process.Tests;

namespace Tankside.Load.Clock;

/// <summary>The hands of a portal's clock.</summary>
public sealed class ClockHands : IDisposable
{
    private readonly string file = Path.Combine(Directory.CreateTempSubdirectory("tankside-clock-").FullName, "shown");

    public ClockHands(DateTime shows, double speed = 1)
    {
        ShownTime.Set(file, shows, speed);
        Clock = new ShownTime(file);
    }

    /// <summary>The same clock, for whoever sends.</summary>
    public ShownTime Clock { get; }

    public DateTime Now => Clock.GetUtcNow().UtcDateTime;

    public void Set(DateTime shows) => ShownTime.Set(file, shows, Clock.Speed);

    public void Jump(TimeSpan by) => Set(Now + by);

    /// <summary>Has the portals of an installation go by this clock.</summary>
    public void Drive(Installation installation)
    {
        installation.Settings["DOTNET_STARTUP_HOOKS"] = typeof(StartupHook).Assembly.Location;
        installation.Settings[StartupHook.Variable] = file;
    }

    public void Dispose() => Directory.Delete(Path.GetDirectoryName(file)!, recursive: true);
}
