namespace Tankside.Testing;

/// <summary>What happens when something a test needs is not installed.</summary>
public static class Missing
{
    /// <summary>On the build machine nothing may be missing: a test that cannot run there fails instead of being skipped.</summary>
    public static bool Fails { get; } =
        string.Equals(Environment.GetEnvironmentVariable("CI"), "true", StringComparison.OrdinalIgnoreCase);

    /// <summary>The reason to skip for; null when the test runs, be it only to fail.</summary>
    public static string? Skips(string? whatIsMissing) => Fails ? null : whatIsMissing;
}
