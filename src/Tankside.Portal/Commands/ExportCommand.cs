using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Releases;
using Tankside.Portal.Releases.Files;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Commands;

/// <summary>Writes the season totals to a file.</summary>
public static class ExportCommand
{
    private const int TellEvery = 5000;

    public static Command? Parse(string[] words)
    {
        if (words is not ["totals", .. var rest] || Words.Parse(rest, "--season", "--programme", "--out") is not { } options
            || options["--out"] is not { Length: > 0 } file)
        {
            return null;
        }

        return new Command((services, cancel) => ExportAsync(services, options["--season"], options["--programme"], file, cancel));
    }

    private static async Task<int> ExportAsync(IServiceProvider services, string? season, string? programme, string file, CancellationToken cancel)
    {
        if (TotalsFile.Named(file) is not { } kind)
        {
            await Console.Error.WriteLineAsync($"The totals are written as {string.Join(", ", TotalsFile.All.Select(f => f.Ending))}; nothing was written.");
            return ExitCodes.WrongUsage;
        }

        await FirstSteps.MigrateAsync(services, cancel);
        await using var db = await services.GetRequiredService<IDbContextFactory<HatcheryDb>>().CreateDbContextAsync(cancel);
        if (await OneProgramme.FindAsync(db, programme, cancel) is not { } found)
        {
            return ExitCodes.Failed;
        }

        var totals = await services.GetRequiredService<TotalsOfSeason>().LoadAsync(found.Id, season, cancel);
        if (totals is null)
        {
            await Console.Error.WriteLineAsync(season is null ? "There is no season yet; nothing was written." : $"There is no season '{season}'; nothing was written.");
            return ExitCodes.Failed;
        }

        await WriteAsync(kind, totals, file, cancel);
        await Console.Error.WriteLineAsync($"{totals.Tanks.Count} tanks written to {file}.");
        return ExitCodes.Good;
    }

    /// <summary>Written beside and moved, so that a full disk never leaves half an account under the asked name.</summary>
    private static async Task WriteAsync(TotalsFile kind, SeasonTotals totals, string file, CancellationToken cancel)
    {
        var draft = file + ".part";
        try
        {
            await using (var stream = new FileStream(draft, FileMode.Create, FileAccess.ReadWrite, FileShare.None))
            {
                await kind.WriteAsync(totals, stream, Tell, cancel);
            }

            File.Move(draft, file, overwrite: true);
        }
        finally
        {
            File.Delete(draft);
        }

        void Tell(int rows)
        {
            if (rows % TellEvery == 0)
            {
                Console.Error.WriteLine($"{rows} of {totals.Tanks.Count} tanks");
            }
        }
    }
}
