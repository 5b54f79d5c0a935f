namespace Tankside.Portal.Shell;

/// <summary>Instants as they are stored: to the millisecond, so that both databases give back exactly what was written.</summary>
public static class Instants
{
    public static DateTime ToMillisecond(DateTime utc) =>
        new(utc.Ticks - (utc.Ticks % TimeSpan.TicksPerMillisecond), DateTimeKind.Utc);
}
