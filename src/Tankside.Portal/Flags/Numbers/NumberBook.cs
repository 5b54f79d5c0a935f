using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Storage;

namespace Tankside.Portal.Flags.Numbers;

/// <summary>A number as it stands in a programme.</summary>
/// <param name="Own">The programme's own value; null where the default holds.</param>
public sealed record NumberNow(Setting Setting, NumberWord Word, NumberGroup Group, double? Own)
{
    public double Value => Own ?? Setting.Default;

    public bool IsOwn => Own is { } own && own != Setting.Default;

    /// <summary>Whether every word that was looked for stands in its name, sentence, key, unit, source or group.</summary>
    public bool Has(IEnumerable<string> words) => words.All(w =>
        $"{Word.Name} {Word.Changes} {Setting.Key} {Setting.Unit} {Setting.Source} {Group.Name}".Contains(w, StringComparison.OrdinalIgnoreCase));
}

/// <summary>All numbers of a programme in the order of the groups.</summary>
public sealed class NumberBook(IDbContextFactory<HatcheryDb> databases)
{
    public async Task<(Programme Programme, IReadOnlyList<NumberNow> Numbers)> LoadAsync(CurrentUser user, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var own = await db.Settings.AsNoTracking().Where(s => s.ProgrammeId == user.ProgrammeId).ToDictionaryAsync(s => s.Key, s => s.Value, cancel);
        return (
            await db.Programmes.AsNoTracking().SingleAsync(p => p.Id == user.ProgrammeId, cancel),
            [.. NumberWords.Groups.SelectMany(g => g.Numbers.Select(w => Now(w, g, own))).OfType<NumberNow>()]);
    }

    private static NumberNow? Now(NumberWord word, NumberGroup group, Dictionary<string, double> own) => ProgrammeNumbers.Find(word.Key) is { } setting
        ? new NumberNow(setting, word, group, own.TryGetValue(word.Key, out var value) ? value : null)
        : null;
}
