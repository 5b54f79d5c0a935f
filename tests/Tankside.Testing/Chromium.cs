namespace Tankside.Testing;

/// <summary>The browser that the browser tests drive: one already installed, never one downloaded.</summary>
public static class Chromium
{
    /// <summary>Its program; null where there is none.</summary>
    public static string? Executable { get; } = Programs.OnPath("chromium", "chromium-browser", "google-chrome")
        ?? (File.Exists("/usr/bin/chromium") ? "/usr/bin/chromium" : null);

    public static string? WhyUnavailable => Executable is null
        ? "No Chromium found. Install it (Debian: apt-get install chromium) to run the browser tests."
        : null;

    /// <summary>Switches for a machine without a display or a sandbox, and for a browser that calls nobody by itself.</summary>
    public static IReadOnlyList<string> Switches { get; } =
    [
        "--no-sandbox", "--disable-gpu", "--disable-quic", "--disable-dev-shm-usage", "--no-first-run",
        "--disable-background-networking", "--disable-component-update", "--disable-sync",
    ];
}
