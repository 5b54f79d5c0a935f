using System.Data.Common;
using System.Globalization;
using Tankside.Portal.Shell;

namespace Tankside.Portal.Commands.Backups;

/// <summary>Backs the database up into one file, or into a folder where older ones are kept for so many days. Portals run on beside it.</summary>
public static class BackupCommand
{
    private const int MostDays = 3650;

    public static Command? Parse(string[] words) => Words.Parse(words, "--out", "--into", "--keep") is not { } options ? null : (options["--out"], options["--into"], options["--keep"]) switch
    {
        ({ Length: > 0 } file, null, null) => new Command((services, cancel) => TakeAsync(services, file, cancel)),
        (null, { Length: > 0 } folder, null) => new Command((services, cancel) => KeepAsync(services, folder, null, cancel)),
        (null, { Length: > 0 } folder, { } keep) when int.TryParse(keep, NumberStyles.None, CultureInfo.InvariantCulture, out var days) && days is > 0 and <= MostDays =>
            new Command((services, cancel) => KeepAsync(services, folder, days, cancel)),
        _ => null,
    };

    private static async Task<int> KeepAsync(IServiceProvider services, string folder, int? days, CancellationToken cancel)
    {
        var now = services.GetRequiredService<TimeProvider>().GetUtcNow().UtcDateTime;
        if (!Directory.Exists(folder))
        {
            await Console.Error.WriteLineAsync($"There is no folder {folder}. Make it for this user alone (mkdir -m 700). Nothing was written.");
            return ExitCodes.Failed;
        }

        var ended = await TakeAsync(services, Path.Combine(folder, KeptBackups.NameAt(now)), cancel);
        if (ended == ExitCodes.Good && days is { } kept && await KeptBackups.DropOldAsync(folder, now.AddDays(-kept), cancel) is > 0 and var dropped)
        {
            await Console.Error.WriteLineAsync(FormattableString.Invariant($"{dropped} older than {kept} days deleted."));
        }

        return ended;
    }

    private static async Task<int> TakeAsync(IServiceProvider services, string file, CancellationToken cancel)
    {
        if (!Directory.Exists(Path.GetDirectoryName(Path.GetFullPath(file))))
        {
            await Console.Error.WriteLineAsync($"There is no folder for {file}. Nothing was written.");
            return ExitCodes.Failed;
        }

        try
        {
            BackupAbout about;
            using (var progress = new Progress(Console.Error, "tables written"))
            {
                about = await ActivatorUtilities.CreateInstance<TakeBackup>(services).WriteAsync(file, progress.Tell, cancel);
            }

            Console.WriteLine($"{file}: {about.Words}");
            return ExitCodes.Good;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or InvalidDataException or DbException or ArgumentOutOfRangeException)
        {
            // The last is what a disk says that takes no file of this length, as many a stick does.
            var older = File.Exists(file) ? "the older one is as it was" : "no file was left";
            await Console.Error.WriteLineAsync($"No backup was made: {e.Message.Split("(Parameter")[0].Trim().TrimEnd('.')}. Under {file} {older}.");
            return ExitCodes.Failed;
        }
    }
}
