namespace Tankside.Portal.Seasons.SetUp;

/// <summary>The time zones to choose from, by their IANA names, whatever the server's own system calls them.</summary>
public static class TimeZones
{
    public static IReadOnlyList<string> All { get; } =
    [
        .. TimeZoneInfo.GetSystemTimeZones()
            .Select(z => z.HasIanaId ? z.Id : TimeZoneInfo.TryConvertWindowsIdToIanaId(z.Id, out var iana) ? iana : null)
            .OfType<string>()
            .Where(id => id.Contains('/', StringComparison.Ordinal) && !id.StartsWith("Etc/", StringComparison.Ordinal))
            .Distinct()
            .Order(StringComparer.Ordinal),
    ];

    /// <summary>By continent, as the list is read.</summary>
    public static IEnumerable<IGrouping<string, string>> ByRegion => All.GroupBy(id => id[..id.IndexOf('/', StringComparison.Ordinal)]);

    /// <summary>The place within its region, e.g. "North Dakota, Center".</summary>
    public static string Place(string id) =>
        id[(id.IndexOf('/', StringComparison.Ordinal) + 1)..].Replace("/", ", ", StringComparison.Ordinal).Replace('_', ' ');
}
