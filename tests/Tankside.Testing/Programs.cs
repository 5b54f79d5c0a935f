using System.Diagnostics;

namespace Tankside.Testing;

/// <summary>Finds and runs the programs of the machine that tests lean on.</summary>
internal static class Programs
{
    public static string? OnPath(params string[] names) => names
        .SelectMany(name => (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator).Select(folder => Path.Combine(folder, name)))
        .FirstOrDefault(File.Exists);

    /// <summary>Runs to the end and throws when it fails. Output is not captured: a server started by it would hold the pipe open.</summary>
    public static void Run(string program, IEnumerable<string> arguments, string folder)
    {
        var start = new ProcessStartInfo(program, arguments) { WorkingDirectory = folder };
        using var process = Process.Start(start)!;
        process.WaitForExit();
        if (process.ExitCode != 0)
        {
            throw new InvalidOperationException($"{program} ended with {process.ExitCode}: {string.Join(' ', start.ArgumentList)}");
        }
    }
}
