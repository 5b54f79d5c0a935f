using Microsoft.EntityFrameworkCore;
using Tankside.Portal.Demo;
using Tankside.Portal.Flags;
using Tankside.Portal.Shell;

namespace Tankside.Portal.Commands;

/// <summary>Seeds the demo season into an empty database.</summary>
public static class DemoCommand
{
    public static Command? Parse(string[] words) => words.Length > 0 ? null : new Command(SeedAsync);

    /// <summary>The command: only into an empty database, never in Production.</summary>
    private static async Task<int> SeedAsync(IServiceProvider services, CancellationToken cancel)
    {
        if (services.GetRequiredService<IHostEnvironment>().IsProduction())
        {
            await Console.Error.WriteLineAsync("The demo season has printed passwords and is never seeded in Production. Nothing was written.");
            return ExitCodes.Failed;
        }

        var seeded = false;
        await FirstSteps.MigrateAsync(services, cancel, async db =>
        {
            if (!await db.Programmes.AnyAsync(cancel))
            {
                await DemoSeason.SeedAsync(db, services.GetRequiredService<TimeProvider>().GetUtcNow().UtcDateTime, cancel);
                seeded = true;
            }
        });
        if (!seeded)
        {
            await Console.Error.WriteLineAsync("This database holds a programme already. Nothing was written.");
            return ExitCodes.Failed;
        }

        await services.GetRequiredService<Judge>().JudgeAllAsync(cancel);
        await DemoSeason.PrintAsync(services, services.GetRequiredService<TanksideOptions>().PublicUrl, Console.Out, cancel);
        return ExitCodes.Good;
    }
}
