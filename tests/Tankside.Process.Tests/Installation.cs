using System.Diagnostics;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Process.Tests;

/// <summary>How a command of the portal ended.</summary>
public sealed record Ended(int ExitCode, string Output, string Trouble)
{
    public string[] Lines => Output.Split('\n', StringSplitOptions.RemoveEmptyEntries);

    /// <summary>The same, if it went well.</summary>
    public Ended Good() => ExitCode == 0 ? this : throw new InvalidOperationException($"Ended with {ExitCode}.\n{Output}\n{Trouble}");
}

/// <summary>
/// The built portal in a folder of its own, run the way an operator runs it: as a process, told by environment variables. It sees no
/// setting of the machine it is tested on.
/// </summary>
public sealed class Installation : IDisposable
{
    /// <summary>The portal's build output lies beside the tests, because the test project refers to the portal.</summary>
    private static readonly string Program = Path.Combine(AppContext.BaseDirectory, "Tankside.Portal.dll");

    /// <summary>No command of these tests takes longer, however busy the machine is.</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(3);

    private static readonly string[] OwnSettings = ["ASPNETCORE_", "DOTNET_ENVIRONMENT", "TANKSIDE", "CONNECTIONSTRINGS_", "SERILOG_", "URLS", "OTEL_"];

    private Installation()
    {
    }

    /// <summary>The folder it runs in; relative paths and the embedded database lie below it.</summary>
    public string Folder { get; } = Directory.CreateTempSubdirectory("tankside-process-").FullName;

    /// <summary>Its environment variables, on top of a bare environment.</summary>
    public Dictionary<string, string> Settings { get; } = [];

    /// <summary>Nothing is configured.</summary>
    public static Installation Unconfigured() => new();

    /// <summary>Configured for a database, in Development unless said otherwise.</summary>
    public static Installation On(DatabaseChoice database, string environment = "Development") => new()
    {
        Settings =
        {
            ["ASPNETCORE_ENVIRONMENT"] = environment,
            ["Tankside__Database"] = database.Kind.ToString(),
            ["ConnectionStrings__Tankside"] = database.ConnectionString,
        },
    };

    public static Installation On(TestDatabase database, string environment = "Development") => On(database.Choice, environment);

    /// <summary>Runs a command to its end.</summary>
    public Task<Ended> RunAsync(params string[] words) => EndAsync(Start(words), words);

    /// <summary>The same on a disk that takes no file larger than so many kilobytes.</summary>
    public Task<Ended> RunOnFullDiskAsync(int kilobytes, params string[] words)
    {
        // The runtime's own memory file is no file of ours.
        Settings["DOTNET_EnableWriteXorExecute"] = "0";
        return EndAsync(Start(words, "sh", "-c", "trap '' XFSZ; ulimit -f $(($1 * 2)); shift; exec \"$@\"", "sh", $"{kilobytes}"), words);
    }

    /// <summary>Runs a command and kills it, as a power cut does, after so long; what it had ended with when it was done before.</summary>
    public async Task<Ended?> RunKilledAsync(TimeSpan after, params string[] words)
    {
        using var process = Start(words);
        var output = process.StandardOutput.ReadToEndAsync();
        var trouble = process.StandardError.ReadToEndAsync();
        using var limit = new CancellationTokenSource(after);
        try
        {
            await process.WaitForExitAsync(limit.Token);
            return new Ended(process.ExitCode, await output, await trouble);
        }
        catch (OperationCanceledException)
        {
            process.Kill();
            await process.WaitForExitAsync();
            return null;
        }
    }

    private static async Task<Ended> EndAsync(System.Diagnostics.Process started, string[] words)
    {
        using var process = started;
        using var limit = new CancellationTokenSource(Patience);
        var output = process.StandardOutput.ReadToEndAsync(limit.Token);
        var trouble = process.StandardError.ReadToEndAsync(limit.Token);
        try
        {
            await process.WaitForExitAsync(limit.Token);
            return new Ended(process.ExitCode, await output, await trouble);
        }
        catch (OperationCanceledException)
        {
            process.Kill();
            throw new TimeoutException($"'{string.Join(' ', words)}' did not end within {Patience}.");
        }
    }

    /// <summary>Serves, and waits until it is ready.</summary>
    /// <param name="port">One that nobody has; null for any.</param>
    public async Task<ServedPortal> ServeAsync(int? port = null)
    {
        var address = $"http://127.0.0.1:{port ?? Loopback.FreePort()}";
        Settings["ASPNETCORE_URLS"] = address;
        var portal = new ServedPortal(Start([]), new Uri(address));
        try
        {
            await portal.WaitUntilReadyAsync(Patience);
            return portal;
        }
        catch
        {
            portal.Dispose();
            throw;
        }
    }

    public void Dispose() => Directory.Delete(Folder, recursive: true);

    private System.Diagnostics.Process Start(string[] words, params string[] before)
    {
        string[] command = [.. before, Environment.GetEnvironmentVariable("DOTNET_HOST_PATH") ?? "dotnet", Program, .. words];
        var start = new ProcessStartInfo(command[0], command[1..])
        {
            WorkingDirectory = Folder,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            RedirectStandardInput = true,
        };
        foreach (var name in start.Environment.Keys.Where(k => OwnSettings.Any(o => k.StartsWith(o, StringComparison.OrdinalIgnoreCase))).ToList())
        {
            start.Environment.Remove(name);
        }

        foreach (var (name, value) in Settings)
        {
            start.Environment[name] = value;
        }

        return System.Diagnostics.Process.Start(start)!;
    }
}
