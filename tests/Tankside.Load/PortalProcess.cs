using System.Diagnostics;
using System.Globalization;
using System.Net;
using Tankside.Testing;

namespace Tankside.Load;

/// <summary>The portal as a process of its own, from a folder that it was built or published into.</summary>
public sealed class PortalProcess : IDisposable
{
    private readonly System.Diagnostics.Process process;

    private PortalProcess(System.Diagnostics.Process process, Uri address) => (this.process, Address) = (process, address);

    public Uri Address { get; }

    /// <summary>Seconds from the start of the process to its first good answer.</summary>
    public double SecondsToFirstAnswer { get; private set; }

    /// <summary>The published program, which is compiled beforehand.</summary>
    public static string Published => Environment.GetEnvironmentVariable("TANKSIDE_PUBLISHED") is { Length: > 0 } folder ? Path.GetFullPath(folder, Start)
        : throw new InvalidOperationException("Publish first: dotnet publish src/Tankside.Portal -c Release -r linux-x64 --no-self-contained -o published, and name that folder in TANKSIDE_PUBLISHED.");

    /// <summary>The same program as it was built, beside the measurements.</summary>
    public static string Built => AppContext.BaseDirectory;

    /// <summary>Where the measurements were started; the run itself moves on.</summary>
    private static string Start { get; } = Environment.GetEnvironmentVariable("PWD") ?? AppContext.BaseDirectory;

    /// <summary>Seeds the demo season by the command.</summary>
    public static async Task SeedDemoAsync(string folder, TestDatabase database)
    {
        using var seeding = Begin(folder, database, new Uri("http://127.0.0.1:1"), ["demo"]);
        await seeding.WaitForExitAsync();
        if (seeding.ExitCode != 0)
        {
            throw new InvalidOperationException($"The demo season was not seeded: {seeding.ExitCode}.");
        }
    }

    /// <summary>Serves, and waits for the first answer.</summary>
    public static async Task<PortalProcess> ServeAsync(string folder, TestDatabase database)
    {
        var address = new Uri($"http://127.0.0.1:{Loopback.FreePort().ToString(CultureInfo.InvariantCulture)}/");
        using var client = new HttpClient { BaseAddress = address };
        var watch = Stopwatch.StartNew();
        var portal = new PortalProcess(Begin(folder, database, address, []), address);
        while (!await IsReadyAsync(client))
        {
            if (portal.process.HasExited || watch.Elapsed > TimeSpan.FromMinutes(2))
            {
                portal.Dispose();
                throw new InvalidOperationException("The portal did not start.");
            }

            await Task.Delay(5);
        }

        portal.SecondsToFirstAnswer = watch.Elapsed.TotalSeconds;
        return portal;
    }

    /// <summary>What the process holds in memory, in MiB, as the system counts it.</summary>
    public double MemoryMiB()
    {
        process.Refresh();
        return process.WorkingSet64 / 1024.0 / 1024.0;
    }

    public void Dispose()
    {
        if (!process.HasExited)
        {
            process.Kill();
            process.WaitForExit();
        }

        process.Dispose();
    }

    private static async Task<bool> IsReadyAsync(HttpClient client)
    {
        try
        {
            using var answer = await client.GetAsync("/health/ready");
            return answer.StatusCode == HttpStatusCode.OK;
        }
        catch (HttpRequestException)
        {
            return false;
        }
    }

    private static System.Diagnostics.Process Begin(string folder, TestDatabase database, Uri address, string[] words)
    {
        var start = new ProcessStartInfo("dotnet", [Path.Combine(folder, "Tankside.Portal.dll"), .. words])
        {
            WorkingDirectory = folder,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        start.Environment["ASPNETCORE_ENVIRONMENT"] = "Development"; // The demo season's people may sign in.
        start.Environment["ASPNETCORE_URLS"] = address.ToString();
        start.Environment["Tankside__Database"] = database.Kind.ToString();
        start.Environment["ConnectionStrings__Tankside"] = database.Choice.ConnectionString;
        var process = System.Diagnostics.Process.Start(start)!;
        process.OutputDataReceived += (_, _) => { };
        process.ErrorDataReceived += (_, _) => { };
        process.BeginOutputReadLine();
        process.BeginErrorReadLine();
        return process;
    }
}
