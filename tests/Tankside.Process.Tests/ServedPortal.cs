using System.Collections.Concurrent;
using System.Net;

namespace Tankside.Process.Tests;

/// <summary>A portal that serves, in a process of its own.</summary>
public sealed class ServedPortal : IDisposable
{
    private readonly System.Diagnostics.Process process;
    private readonly ConcurrentQueue<string> lines = new();

    public ServedPortal(System.Diagnostics.Process process, Uri address)
    {
        this.process = process;
        Client = new HttpClient { BaseAddress = address, Timeout = TimeSpan.FromSeconds(60) };
        process.OutputDataReceived += (_, e) => Keep(e.Data);
        process.ErrorDataReceived += (_, e) => Keep(e.Data);
        process.BeginOutputReadLine();
        process.BeginErrorReadLine();
    }

    public HttpClient Client { get; }

    public int Id => process.Id;

    /// <summary>What it has said so far.</summary>
    public IReadOnlyList<string> Lines => [.. lines];

    /// <summary>Looks until it answers that it is ready; throws with what it said when it ended instead.</summary>
    public async Task WaitUntilReadyAsync(TimeSpan patience)
    {
        var deadline = DateTime.UtcNow + patience;
        while (!await IsReadyAsync())
        {
            if (process.HasExited || DateTime.UtcNow > deadline)
            {
                throw new InvalidOperationException($"The portal did not get ready.\n{string.Join('\n', lines)}");
            }

            await Task.Delay(25);
        }
    }

    /// <summary>Looks at what it says until a line is there that fits, and gives it.</summary>
    public async Task<string> LineAsync(Func<string, bool> fits)
    {
        var deadline = DateTime.UtcNow.AddSeconds(30);
        for (; ; )
        {
            if (lines.FirstOrDefault(fits) is { } line)
            {
                return line;
            }

            if (process.HasExited || DateTime.UtcNow > deadline)
            {
                throw new InvalidOperationException($"The portal did not say it.\n{string.Join('\n', lines)}");
            }

            await Task.Delay(25);
        }
    }

    /// <summary>Ends it as a power cut does: SIGKILL, nothing is told to it.</summary>
    public async Task KillAsync()
    {
        process.Kill();
        await process.WaitForExitAsync();
    }

    /// <summary>Asks it to stop, as the service manager does, and waits until it has.</summary>
    public async Task StopAsync()
    {
        using var kill = System.Diagnostics.Process.Start("kill", ["-TERM", Id.ToString(System.Globalization.CultureInfo.InvariantCulture)]);
        await kill.WaitForExitAsync();
        await process.WaitForExitAsync();
    }

    public void Dispose()
    {
        Client.Dispose();
        if (!process.HasExited)
        {
            process.Kill();
            process.WaitForExit();
        }

        process.Dispose();
    }

    private async Task<bool> IsReadyAsync()
    {
        try
        {
            using var answer = await Client.GetAsync("/health/ready");
            return answer.StatusCode == HttpStatusCode.OK;
        }
        catch (HttpRequestException)
        {
            return false;
        }
    }

    private void Keep(string? line)
    {
        if (line is not null)
        {
            lines.Enqueue(line);
        }
    }
}
