using System.Diagnostics;

namespace Tankside.Testing;

/// <summary>Finds and runs the programs of the machine that tests lean on.</summary>
internal static class Programs
{
    public static string? OnPath(params string[] names) => names
        .SelectMany(name => (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator).Select(folder => Path.Combine(folder, name)))
        .FirstOrDefault(File.Exists);

    /// <summary>Runs to the end and throws when it fails. Its output is left alone: a server started by it would hold a pipe open for good.</summary>
    public static void Run(string program, IEnumerable<string> arguments, string folder)
    {
        using var process = Process.Start(new ProcessStartInfo(program, arguments) { WorkingDirectory = folder })!;
        process.WaitForExit();
        if (process.ExitCode != 0)
        {
            throw new InvalidOperationException($"{program} ended with {process.ExitCode}.");
        }
    }

    /// <summary>Runs to the end without a word, and throws with what it said when it fails. Not for what starts a server.</summary>
    public static void RunQuietly(string program, IEnumerable<string> arguments, string folder)
    {
        using var process = Process.Start(new ProcessStartInfo("sh", ["-c", "exec \"$@\" 2>&1", "sh", program, .. arguments])
        {
            WorkingDirectory = folder,
            RedirectStandardOutput = true,
        })!;
        var said = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        if (process.ExitCode != 0)
        {
            throw new InvalidOperationException($"{program} ended with {process.ExitCode}: {said}");
        }
    }
}
