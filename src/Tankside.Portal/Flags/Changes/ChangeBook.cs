using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Portal.Flags.Texts;
using Tankside.Storage;

namespace Tankside.Portal.Flags.Changes;

/// <summary>Which changes are looked for.</summary>
public sealed record ChangeFilter
{
    public string? What { get; init; }

    public string? Which { get; init; }

    /// <summary>With what the key of the thing begins.</summary>
    public string? Begins { get; init; }

    public Guid? Who { get; init; }

    public DateOnly? From { get; init; }

    public DateOnly? To { get; init; }

    public string? Word { get; init; }

    public int Page { get; init; } = 1;

    public static ChangeFilter Of(string? what, string? who, string? from, string? to, string? word, int? page) => new()
    {
        What = string.IsNullOrEmpty(what) ? null : what,
        Who = Guid.TryParse(who, out var id) ? id : null,
        From = Day(from),
        To = Day(to),
        Word = string.IsNullOrWhiteSpace(word) ? null : word.Trim(),
        Page = Math.Max(1, page ?? 1),
    };

    private static DateOnly? Day(string? typed) =>
        DateOnly.TryParseExact(typed, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day) && day.Year is > 2000 and < 2100 ? day : null;
}

/// <summary>A change as it is read.</summary>
/// <param name="Name">What was changed; for a change about a person their name as it is today.</param>
/// <param name="Fields">One sentence a field.</param>
public sealed record ChangeLine(long Id, DateTime Local, string Who, string What, string Name, string? Address, string Kind, IReadOnlyList<string> Fields);

public sealed record ChangesFound(IReadOnlyList<ChangeLine> Lines, int Count, int Page, int Pages);

/// <summary>Reads a programme's record of changes, newest first. A coordinator reads it without what tells about people.</summary>
public sealed class ChangeBook(Replica replica)
{
    public const int OnePage = 50, MostInFile = 20_000;

    public async Task<ChangesFound> LoadAsync(CurrentUser user, ChangeFilter filter, CancellationToken cancel)
    {
        await using var db = await replica.OpenAsync(cancel);
        var clock = await ClockAsync(db, user, cancel);
        var found = Found(db, user, filter, clock);
        var count = await found.CountAsync(cancel);
        var pages = Math.Max(1, (count + OnePage - 1) / OnePage);
        var page = Math.Min(filter.Page, pages);
        var rows = await found.OrderByDescending(c => c.At).ThenByDescending(c => c.Id).Skip((page - 1) * OnePage).Take(OnePage).ToListAsync(cancel);
        return new ChangesFound(await LinesAsync(db, rows, clock, cancel), count, page, pages);
    }

    public async Task<IReadOnlyList<ChangeLine>> AllAsync(CurrentUser user, ChangeFilter filter, CancellationToken cancel)
    {
        await using var db = await replica.OpenAsync(cancel);
        var clock = await ClockAsync(db, user, cancel);
        var rows = await Found(db, user, filter, clock).OrderByDescending(c => c.At).ThenByDescending(c => c.Id).Take(MostInFile).ToListAsync(cancel);
        return await LinesAsync(db, rows, clock, cancel);
    }

    /// <summary>Whoever changed something, by name.</summary>
    public async Task<IReadOnlyList<(Guid Id, string Name)>> PeopleAsync(CurrentUser user, CancellationToken cancel)
    {
        await using var db = await replica.OpenAsync(cancel);
        var people = await db.Users.Where(p => db.Changes.Any(c => c.ProgrammeId == user.ProgrammeId && c.By == p.Id))
            .OrderBy(p => p.Name).Select(p => new { p.Id, p.Name }).ToListAsync(cancel);
        return [.. people.Select(p => (p.Id, p.Name))];
    }

    private static async Task<ProgrammeClock> ClockAsync(HatcheryDb db, CurrentUser user, CancellationToken cancel) =>
        ProgrammeClock.Of(await db.Programmes.Where(p => p.Id == user.ProgrammeId).Select(p => p.TimeZone).SingleAsync(cancel));

    private static IQueryable<Change> Found(HatcheryDb db, CurrentUser user, ChangeFilter filter, ProgrammeClock clock)
    {
        var changes = db.Changes.AsNoTracking().Where(c => c.ProgrammeId == user.ProgrammeId);
        if (!user.Is(Role.ProgrammeLead))
        {
            changes = changes.Where(c => !ChangeWords.OfPeople.Contains(c.What));
        }

        if (filter.What is { } what)
        {
            changes = changes.Where(c => c.What == what);
        }

        if (filter.Which is { } which)
        {
            changes = changes.Where(c => c.Which == which);
        }

        if (filter.Begins is { } begins)
        {
            changes = changes.Where(c => c.Which.StartsWith(begins));
        }

        if (filter.Who is { } who)
        {
            changes = changes.Where(c => c.By == who);
        }

        if (filter.From is { } from)
        {
            var begin = clock.Utc(from, TimeOnly.MinValue);
            changes = changes.Where(c => c.At >= begin);
        }

        if (filter.To is { } to)
        {
            var end = clock.Utc(to.AddDays(1), TimeOnly.MinValue);
            changes = changes.Where(c => c.At < end);
        }

        return filter.Word is { } word ? Having(changes, word) : changes;
    }

    private static IQueryable<Change> Having(IQueryable<Change> changes, string word)
    {
        var (low, settings, texts) = (word.ToLowerInvariant(), ChangeWords.SettingsNamed(word), TextWords.KeysNamed(word));
        var kinds = ChangeWords.Kinds.Where(k => k.Value.Contains(word, StringComparison.OrdinalIgnoreCase)).Select(k => k.Key).ToList();
#pragma warning disable CA1304, CA1311, CA1862 // The database lowers, without a culture.
        return changes.Where(c => c.Name.ToLower().Contains(low) || c.Fields.ToLower().Contains(low) || kinds.Contains(c.What)
            || (c.What == nameof(ProgrammeSetting) && settings.Contains(c.Which)) || (c.What == nameof(OwnText) && texts.Contains(c.Which)));
#pragma warning restore CA1304, CA1311, CA1862
    }

    private static async Task<IReadOnlyList<ChangeLine>> LinesAsync(HatcheryDb db, List<Change> rows, ProgrammeClock clock, CancellationToken cancel)
    {
        var names = await ChangeNames.LoadAsync(db, rows, cancel);
        return
        [
            .. rows.Select(c => new ChangeLine(
                c.Id, clock.Local(c.At), c.By is { } by ? names.Person(by) : "the program itself", ChangeWords.Kind(c.What),
                c.About is { } about ? names.Person(about) : names.Of(c), ChangeWords.Address(c), ChangeWords.Word(c.Kind), [.. c.Read().Select(names.Sentence)])),
        ];
    }
}
