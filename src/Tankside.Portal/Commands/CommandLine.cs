namespace Tankside.Portal.Commands;

/// <summary>One subcommand, ready to run on the portal's own services.</summary>
public sealed class Command(Func<IServiceProvider, CancellationToken, Task<int>> run)
{
    public async Task<int> RunAsync(IServiceProvider services)
    {
        using var interrupt = new CancellationTokenSource();
        Console.CancelKeyPress += (_, e) =>
        {
            e.Cancel = true;
            interrupt.Cancel();
        };
        try
        {
            await using var scope = services.CreateAsyncScope();
            return await run(scope.ServiceProvider, interrupt.Token);
        }
        catch (OperationCanceledException)
        {
            await Console.Error.WriteLineAsync("Stopped before it was done.");
            return ExitCodes.Failed;
        }
        catch (Exception e) when (e is System.Data.Common.DbException or Microsoft.EntityFrameworkCore.DbUpdateException or IOException or InvalidOperationException)
        {
            await Console.Error.WriteLineAsync($"Failed: {e.GetBaseException().Message}");
            return ExitCodes.Failed;
        }
    }
}

/// <summary>Reads the words after the program's name.</summary>
public static class CommandLine
{
    /// <summary>Runs what needs neither configuration nor database; null when the words are something else.</summary>
    public static int? WithoutPortal(string[] args) => args switch
    {
        ["replay", ..] => null,
        _ => null,
    };

    /// <summary>The command among the words; null to serve.</summary>
    public static Command? Parse(string[] args) => args switch
    {
        ["migrate"] => new Command((_, _) => Task.FromResult(0)),
        _ => null,
    };
}
