namespace Tankside.Load.Drill;

/// <summary>How long each rests from an answer to what it does next.</summary>
public sealed record Pace(TimeSpan Logger, TimeSpan Class, TimeSpan Person)
{
    private static readonly TimeSpan Short = TimeSpan.FromMilliseconds(250);

    /// <summary>As much as a few can do: to have something on its way whenever something falls.</summary>
    public static Pace Busy { get; } = new(Short, Short, Short);
}
