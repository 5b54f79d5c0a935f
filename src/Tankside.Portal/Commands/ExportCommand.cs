using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Releases;
using Tankside.Portal.Releases.Files;
using Tankside.Portal.Releases.OwnColumns;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Commands;

/// <summary>Writes the season totals to a file.</summary>
public static class ExportCommand
{
    private const int TellEvery = 5000;

    public static Command? Parse(string[] words)
    {
        if (words is not ["totals", .. var rest] || Words.Parse(rest, "--season", "--programme", "--mapping", "--out") is not { } options
            || options["--out"] is not { Length: > 0 } file)
        {
            return null;
        }

        return new Command((services, cancel) => ExportAsync(services, options, file, cancel));
    }

    private static async Task<int> ExportAsync(IServiceProvider services, Words options, string file, CancellationToken cancel)
    {
        if (TotalsFile.Named(file) is not { } kind)
        {
            await Console.Error.WriteLineAsync($"The totals are written as {string.Join(", ", TotalsFile.All.Select(f => f.Ending))}; nothing was written.");
            return ExitCodes.WrongUsage;
        }

        var (season, mapping) = (options["--season"], (ColumnMapping?)null);
        if (options["--mapping"] is { } columns && (mapping = await ReadMappingAsync(columns, kind, cancel)) is null)
        {
            return ExitCodes.WrongUsage;
        }

        await FirstSteps.MigrateAsync(services, cancel);
        await using var db = await services.GetRequiredService<IDbContextFactory<HatcheryDb>>().CreateDbContextAsync(cancel);
        if (await OneProgramme.FindAsync(db, options["--programme"], cancel) is not { } found)
        {
            return ExitCodes.Failed;
        }

        var totals = await services.GetRequiredService<TotalsOfSeason>().LoadAsync(found.Id, season, cancel);
        if (totals is null)
        {
            await Console.Error.WriteLineAsync(season is null ? "There is no season yet; nothing was written." : $"There is no season '{season}'; nothing was written.");
            return ExitCodes.Failed;
        }

        await WriteAsync(kind, totals, mapping, file, cancel);
        await Console.Error.WriteLineAsync($"{totals.Tanks.Count} tanks written to {file}.");
        return ExitCodes.Good;
    }

    /// <summary>The agency's own columns, as the page of report columns takes them; null when there is something wrong with them, and that is said.</summary>
    private static async Task<ColumnMapping?> ReadMappingAsync(string file, TotalsFile kind, CancellationToken cancel)
    {
        if (kind != TotalsFile.All[0])
        {
            await Console.Error.WriteLineAsync($"Own columns are written as {TotalsFile.All[0].Ending} only; nothing was written.");
            return null;
        }

        if (!File.Exists(file))
        {
            await Console.Error.WriteLineAsync($"There is no mapping file {file}; nothing was written.");
            return null;
        }

        var mapping = ColumnMapping.Read(await File.ReadAllTextAsync(file, cancel));
        foreach (var trouble in mapping.Troubles)
        {
            await Console.Error.WriteLineAsync($"{file}, line {trouble.Line}: {trouble.Why}");
        }

        return mapping.Troubles.Count == 0 ? mapping : null;
    }

    /// <summary>Written beside and moved, so that a full disk never leaves half an account under the asked name.</summary>
    private static async Task WriteAsync(TotalsFile kind, SeasonTotals totals, ColumnMapping? mapping, string file, CancellationToken cancel)
    {
        var draft = file + ".part";
        try
        {
            await using (var stream = new FileStream(draft, FileMode.Create, FileAccess.ReadWrite, FileShare.None))
            {
                await (mapping is null ? kind.WriteAsync(totals, stream, Tell, cancel) : stream.WriteAsync(OwnReport.Write(totals, mapping), cancel).AsTask());
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
