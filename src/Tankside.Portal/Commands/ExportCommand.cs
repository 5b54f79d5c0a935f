using Microsoft.EntityFrameworkCore;
using Tankside.Portal.Releases;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Commands;

/// <summary>Writes the season totals to a file.</summary>
public static class ExportCommand
{
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
        if (!file.EndsWith(".csv", StringComparison.OrdinalIgnoreCase))
        {
            await Console.Error.WriteLineAsync("The totals are written as .csv; nothing was written.");
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

        // Written beside and moved, so that a full disk never leaves half an account under the asked name.
        var draft = file + ".part";
        await File.WriteAllBytesAsync(draft, TotalsCsv.Write(totals), cancel);
        File.Move(draft, file, overwrite: true);
        await Console.Error.WriteLineAsync($"{totals.Tanks.Count} tanks written to {file}.");
        return ExitCodes.Good;
    }
}
