using System.Diagnostics;

namespace Tankside.Testing;

/// <summary>The nginx of this machine, asked what it thinks of a configuration. How it serves is in <see cref="ShippedNginx"/>.</summary>
public static class Nginx
{
    internal static readonly string? Program = Programs.OnPath("nginx") ?? (File.Exists("/usr/sbin/nginx") ? "/usr/sbin/nginx" : null);

    /// <summary>Why there is none, and what to install; null when there is one.</summary>
    public static string? WhyUnavailable => Program is null ? "No nginx found. Install it (Debian: apt-get install nginx)." : null;

    /// <summary>What it says of a configuration file in a folder that holds everything it names; how it ended, first.</summary>
    public static async Task<(int ExitCode, string Said)> TestAsync(string folder, string file)
    {
        using var process = Process.Start(new ProcessStartInfo(Program ?? throw new InvalidOperationException(WhyUnavailable), ["-t", "-p", folder, "-c", file])
        {
            RedirectStandardError = true,
            RedirectStandardOutput = true,
        })!;
        var said = await process.StandardError.ReadToEndAsync();
        await process.WaitForExitAsync();
        return (process.ExitCode, said);
    }
}
