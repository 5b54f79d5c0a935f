using Microsoft.EntityFrameworkCore;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell;

namespace Tankside.Portal.Commands;

/// <summary>Prints a one-time link by which a programme is made: the first of an empty installation, or a further one beside those there are.</summary>
public static class SetUpCommand
{
    public static Command? Parse(string[] words) => words.Length > 0 ? null : new Command((services, cancel) => PrintAsync(services, Console.Out, cancel));

    public static async Task<int> PrintAsync(IServiceProvider services, TextWriter output, CancellationToken cancel)
    {
        var (options, time) = (services.GetRequiredService<TanksideOptions>(), services.GetRequiredService<TimeProvider>());
        await FirstSteps.MigrateAsync(services, cancel, async db =>
            await SetUp.PrintLinkAsync(db, options.PublicUrl, time.GetUtcNow().UtcDateTime, output, forAnother: await db.Programmes.AnyAsync(cancel)));
        return ExitCodes.Good;
    }
}
