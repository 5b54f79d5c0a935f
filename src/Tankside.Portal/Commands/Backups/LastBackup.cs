using Tankside.Portal.Shell;

namespace Tankside.Portal.Commands.Backups;

/// <summary>How old the newest backup is. The files say it themselves, so that it is known also when the database is what was lost.</summary>
public static class LastBackup
{
    /// <summary>A night's backup that failed once is still within it, twice not.</summary>
    private static readonly TimeSpan TooOld = TimeSpan.FromHours(50);

    public static async Task<string> TellAsync(IServiceProvider services, CancellationToken cancel)
    {
        if (services.GetRequiredService<TanksideOptions>().Backups is not { } folder)
        {
            return "none is looked for; name the folder in Tankside:Backups to be told how old the newest is";
        }

        if (!Directory.Exists(folder))
        {
            throw new InvalidOperationException($"there is no folder {folder} (Tankside:Backups)");
        }

        if (await KeptBackups.NewestAsync(folder, cancel) is not var (file, about))
        {
            throw new InvalidOperationException($"no backup lies in {folder}");
        }

        var age = services.GetRequiredService<TimeProvider>().GetUtcNow().UtcDateTime - about.At;
        var words = FormattableString.Invariant($"the newest is {age.TotalHours:0} hours old, {file}, {about.Rows} rows");
        return age <= TooOld ? words : throw new InvalidOperationException(words);
    }
}
