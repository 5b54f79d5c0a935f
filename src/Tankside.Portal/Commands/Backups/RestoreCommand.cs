using System.Data.Common;
using Microsoft.EntityFrameworkCore;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Commands.Backups;

/// <summary>Puts a backup back, into an empty database, or to try it into one that is thrown away. Whatever was there before is kept.</summary>
public static class RestoreCommand
{
    public static Command? Parse(string[] words)
    {
        var (replace, tries) = (words.Contains("--replace"), words.Contains("--try"));
        return Words.Parse([.. words.Where(w => w is not ("--replace" or "--try"))], "--from") is { } options
            && options["--from"] is { Length: > 0 } file && words.Length == 2 + (replace || tries ? 1 : 0)
                ? new Command((services, cancel) => RestoreAsync(services, file, replace, tries, cancel))
                : null;
    }

    private static async Task<int> RestoreAsync(IServiceProvider services, string file, bool replace, bool tries, CancellationToken cancel)
    {
        var options = services.GetRequiredService<TanksideOptions>();
        var (about, refusal) = await LookAsync(services, file, cancel);
        if (about is null)
        {
            return await RefuseAsync(refusal!);
        }

        try
        {
            if (tries)
            {
                return await ActivatorUtilities.CreateInstance<Drill>(services).RunAsync(file, about, cancel);
            }

            var restored = options.Database.Kind switch
            {
                DatabaseKind.Sqlite => await ActivatorUtilities.CreateInstance<RestoreSqlite>(services).RunAsync(file, about, replace, cancel),
                DatabaseKind.PostgreSQL => await ActivatorUtilities.CreateInstance<RestorePostgres>(services).RunAsync(file, about, replace, cancel),
            };
            if (restored is Restored.Refused(var why))
            {
                return await RefuseAsync(why);
            }

            Console.WriteLine($"Restored: {about.Words}.{(restored is Restored.Done({ } kept) ? $" What was there before is kept as {kept}." : "")}");
            await Console.Error.WriteLineAsync(
                "The program's state is that of the backup: letters that waited then are sent, what was revoked or erased since has to be revoked or erased again. Now start the portals.");
            return ExitCodes.Good;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or InvalidDataException or DbException or DbUpdateException)
        {
            await Console.Error.WriteLineAsync($"The restore failed: {e.GetBaseException().Message.TrimEnd('.')}. {options.Database.Kind switch
            {
                DatabaseKind.Sqlite => "Nothing was changed.",
                DatabaseKind.PostgreSQL => "No row was written; the database is as empty as before.",
            }}");
            return ExitCodes.Failed;
        }
    }

    /// <summary>Whether this program can restore the file into its database.</summary>
    private static async Task<OpenedBackup> LookAsync(IServiceProvider services, string file, CancellationToken cancel)
    {
        OpenedBackup opened;
        using (var progress = new Progress(Console.Error, "MB read"))
        {
            opened = await BackupFile.OpenAsync(file, progress.Tell, cancel);
        }

        if (opened.About is not { } about)
        {
            return opened;
        }

        var kind = services.GetRequiredService<TanksideOptions>().Database.Kind;
        await using var db = await services.GetRequiredService<IDbContextFactory<HatcheryDb>>().CreateDbContextAsync(cancel);
        return about.Database != kind ? new OpenedBackup(null, $"{file} is a backup of {about.Database}; this portal is set to {kind} (Tankside:Database).")
            : !db.Database.GetMigrations().Contains(about.Schema) ? new OpenedBackup(null, $"{file} has the schema {about.Schema} of program {about.Program}, newer than this program ({BackupAbout.ThisProgram}) knows. Install that one and restore with it.")
            : opened;
    }

    private static async Task<int> RefuseAsync(string why)
    {
        await Console.Error.WriteLineAsync($"{why} Nothing was changed.");
        return ExitCodes.Failed;
    }
}

/// <summary>What came of a restore.</summary>
public abstract record Restored
{
    private Restored()
    {
    }

    /// <param name="Kept">Where what was there before lies now; null when there was nothing.</param>
    public sealed record Done(string? Kept) : Restored;

    public sealed record Refused(string Why) : Restored;
}
