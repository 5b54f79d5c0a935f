using Tankside.Portal.Commands.Backups;
using Tankside.Portal.Shell;
using Tankside.Portal.Shell.Paper;

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
        catch (Exception e) when (e is System.Data.Common.DbException or Microsoft.EntityFrameworkCore.DbUpdateException
            or IOException or InvalidOperationException or UnauthorizedAccessException)
        {
            await Console.Error.WriteLineAsync($"Failed: {e.GetBaseException().Message}");
            return ExitCodes.Failed;
        }
    }
}

/// <summary>Reads the words after the program's name.</summary>
public static class CommandLine
{
    private static readonly Dictionary<string, Func<string[], Command?>> Commands = new(StringComparer.Ordinal)
    {
        ["migrate"] = Migrate.Parse,
        ["demo"] = DemoCommand.Parse,
        ["simulate"] = SimulateCommand.Parse,
        ["key"] = KeyCommand.Parse,
        ["export"] = ExportCommand.Parse,
        ["judge"] = JudgeCommand.Parse,
        ["rebuild"] = RebuildCommand.Parse,
        ["backup"] = BackupCommand.Parse,
        ["restore"] = RestoreCommand.Parse,
        ["bounces"] = BouncesCommand.Parse,
        ["doctor"] = Doctor.Parse,
        ["set-up"] = SetUpCommand.Parse,
        ["second-step"] = SecondStepCommand.Parse,
    };

    /// <summary>
    /// Runs what needs neither configuration nor database, and refuses words that are no command; null to go on. Words that begin with a
    /// dash or hold an equals sign are the host's own.
    /// </summary>
    public static int? WithoutPortal(string[] args) => args switch
    {
        [RewrittenApart.Word] => RewrittenApart.Run(Console.OpenStandardInput(), Console.OpenStandardOutput()),
        ["replay", .. var words] => Replaying.Replay.Run(words, Console.Out, Console.Error),
        [var word, ..] when !IsHostWord(word) && Parse(args) is null => Usage(),
        _ => null,
    };

    /// <summary>The command among the words; null to serve.</summary>
    public static Command? Parse(string[] args) =>
        args is [var word, .. var rest] && Commands.TryGetValue(word, out var parse) ? parse(rest) : null;

    private static bool IsHostWord(string word) => word.StartsWith('-') || word.Contains('=', StringComparison.Ordinal) || word.StartsWith('/');

    private static int Usage()
    {
        Console.Error.WriteLine(
            """
            Not understood. The commands are:
              migrate                                             bring the database to the newest schema
              demo                                                seed the demo season into an empty database
              simulate --tanks N --days D --seed S [--logger-minutes M]
                                                                  write a made-up season of any size into an empty database
              key new --role logger|coordinator --tanks all|CODE,... [--name NAME]
              replay --case FILE [--out FILE]                     run a history through the rules
              export totals [--season NAME] [--programme NAME] [--mapping FILE] --out FILE.csv|.xlsx|.pdf
              judge                                               judge every open tank now
              rebuild                                             make the running state of every tank again from its readings
              backup --out FILE | --into FOLDER [--keep DAYS]     write the whole database into one file, beside running portals
              restore --from FILE [--replace|--try]               put a backup back, or try it in a database that is thrown away
              bounces FILE|-                                      read reports of letters that could not be delivered
              doctor                                              check configuration, database, mail, clock, keys
              set-up                                              print a link by which a programme is made, also a further one
              second-step off --email ADDRESS                     for somebody who lost the phone and the codes, and whom no lead can help
            Without a command the portal is served.
            """);
        return ExitCodes.WrongUsage;
    }
}
