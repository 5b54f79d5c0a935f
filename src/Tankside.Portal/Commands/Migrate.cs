using Tankside.Portal.Shell;

namespace Tankside.Portal.Commands;

/// <summary>Brings the configured database to the newest schema; several at once wait for each other.</summary>
public static class Migrate
{
    public static Command? Parse(string[] words) => words.Length > 0 ? null : new Command(async (services, cancel) =>
    {
        await FirstSteps.MigrateAsync(services, cancel);
        await Console.Error.WriteLineAsync("The database has the newest schema.");
        return ExitCodes.Good;
    });
}
