using System.Diagnostics;
using System.Globalization;
using System.Runtime.InteropServices;
using System.Text;

namespace Tankside.Portal.Shell.Paper;

/// <summary>
/// Rewrites a PDF in a process of its own, with little memory and time and none of the portal's settings. A small file can unpack to gigabytes, or
/// nest so deep that whoever reads it has no stack left, which no program survives: then it is that process that ends, and the portal says no.
/// </summary>
public static class RewrittenApart
{
    /// <summary>The word by which this program rewrites a PDF from its input to its output.</summary>
    public const string Word = "rewrite-pdf";

    /// <summary>Room for a paper of the largest size several times over, bytes.</summary>
    private const long MostMemory = 256L << 20;

    /// <summary>What the process needs to start, wherever .NET lies; the portal's secrets are among what it does not get.</summary>
    private static readonly string[] Passed = ["PATH", "HOME", "TMPDIR", "TMP", "TEMP", "DOTNET_ROOT", "LD_LIBRARY_PATH", "SystemRoot", "USERPROFILE"];

    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(20);

    private static readonly SemaphoreSlim OneAtATime = new(1);

    private static readonly RewrittenPdf TooMuch = new RewrittenPdf.Refused(
        "This PDF is too much to read: it unpacks to more than the portal can hold, nests too deep or takes too long. Send a picture of the paper, or print it to a new PDF; nothing was stored.");

    public static async Task<RewrittenPdf> OfAsync(IFormFile file, CancellationToken cancel)
    {
        await OneAtATime.WaitAsync(cancel);
        try
        {
            using var enough = CancellationTokenSource.CreateLinkedTokenSource(cancel);
            enough.CancelAfter(Patience);
            await using var sent = file.OpenReadStream();
            return await OfAsync(sent, enough.Token);
        }
        catch (OperationCanceledException) when (!cancel.IsCancellationRequested)
        {
            return TooMuch;
        }
        finally
        {
            OneAtATime.Release();
        }
    }

    /// <summary>What the process of its own does: the number of pages in a line and then the new file, or a code and why not.</summary>
    public static int Run(Stream input, Stream output)
    {
        using var sent = new MemoryStream();
        input.CopyTo(sent);
        var (code, bytes) = RewrittenPdf.Of(sent.ToArray()) switch
        {
            RewrittenPdf.Sheets sheets => (ExitCodes.Good, [.. Encoding.ASCII.GetBytes(FormattableString.Invariant($"{sheets.Pages}\n")), .. sheets.Pdf]),
            RewrittenPdf.Refused refused => (ExitCodes.Failed, Encoding.UTF8.GetBytes(refused.Why)),
            _ => throw new UnreachableException(),
        };
        output.Write(bytes);
        return code;
    }

    private static async Task<RewrittenPdf> OfAsync(Stream sent, CancellationToken cancel)
    {
        using var process = Process.Start(Self()) ?? throw new InvalidOperationException("The program could not be started a second time.");
        try
        {
            using var told = new MemoryStream();
            var reading = process.StandardOutput.BaseStream.CopyToAsync(told, cancel);
            var troubles = process.StandardError.BaseStream.CopyToAsync(Stream.Null, cancel);
            await FeedAsync(sent, process, cancel);
            await Task.WhenAll(reading, troubles, process.WaitForExitAsync(cancel));
            return process.ExitCode switch
            {
                ExitCodes.Good => Sheets(told.ToArray()),
                ExitCodes.Failed => new RewrittenPdf.Refused(Encoding.UTF8.GetString(told.ToArray())),
                _ => TooMuch,
            };
        }
        finally
        {
            if (!process.HasExited)
            {
                process.Kill(entireProcessTree: true);
            }
        }
    }

    private static async Task FeedAsync(Stream sent, Process process, CancellationToken cancel)
    {
        try
        {
            await using var input = process.StandardInput.BaseStream;
            await sent.CopyToAsync(input, cancel);
        }
        catch (IOException)
        {
            // It ended before it had read everything; its code says how.
        }
    }

    private static RewrittenPdf.Sheets Sheets(byte[] told)
    {
        var line = Array.IndexOf(told, (byte)'\n');
        return new RewrittenPdf.Sheets(told[(line + 1)..], int.Parse(Encoding.ASCII.GetString(told, 0, line), CultureInfo.InvariantCulture));
    }

    private static ProcessStartInfo Self()
    {
        var program = typeof(RewrittenApart).Assembly.Location;
        var isOwn = Path.GetFileNameWithoutExtension(Environment.ProcessPath) == Path.GetFileNameWithoutExtension(program);
        var start = new ProcessStartInfo(isOwn ? Environment.ProcessPath! : Dotnet())
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            WorkingDirectory = Path.GetTempPath(),
        };
        foreach (var word in isOwn ? [Word] : new[] { "exec", program, Word })
        {
            start.ArgumentList.Add(word);
        }

        foreach (var key in start.Environment.Keys.Except(Passed, StringComparer.OrdinalIgnoreCase).ToList())
        {
            start.Environment.Remove(key);
        }

        start.Environment["DOTNET_GCHeapHardLimit"] = MostMemory.ToString("X", CultureInfo.InvariantCulture);
        start.Environment["DOTNET_gcServer"] = "0";
        start.Environment["DOTNET_EnableDiagnostics"] = "0";
        return start;
    }

    /// <summary>What runs this program, where it has no starter of its own name: the command beside the runtime.</summary>
    private static string Dotnet() => Path.GetFullPath(Path.Combine(
        RuntimeEnvironment.GetRuntimeDirectory(), "..", "..", "..", OperatingSystem.IsWindows() ? "dotnet.exe" : "dotnet"));
}
