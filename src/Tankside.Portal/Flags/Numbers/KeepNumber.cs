using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Portal.Flags.Sweeps;
using Tankside.Portal.Readings;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Flags.Numbers;

public sealed class NumberForm
{
    public string? Value { get; set; }

    /// <summary>The programme's own value as the person saw it; empty for the default.</summary>
    public string? Seen { get; set; }

    /// <summary>The version of that value.</summary>
    public int Version { get; set; }
}

/// <summary>Sets one of a programme's numbers, or takes its own value back; every open tank is judged anew by it.</summary>
public sealed class KeepNumber(IDbContextFactory<HatcheryDb> databases, NewFacts newFacts, RoundFeed feed, TimeProvider time)
{
    public async Task<ProgrammeSetting?> OwnAsync(CurrentUser user, string key, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await db.Settings.AsNoTracking().SingleOrDefaultAsync(s => s.ProgrammeId == user.ProgrammeId && s.Key == key, cancel);
    }

    /// <summary>What to tell; null when it was refused and the field says why.</summary>
    public Task<Notice?> SetAsync(CurrentUser user, Setting setting, NumberForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        var typed = new TypedFields(refuse);
        if (typed.Number(nameof(form.Value), form.Value, double.MinValue, double.MaxValue, NumberFigures.Of(setting.Default)) is { } value)
        {
            return InTurn.SaveAsync(() => TryAsync(user, setting, value, form, refuse, cancel), refuse);
        }

        if (string.IsNullOrWhiteSpace(form.Value))
        {
            typed.Refuse(nameof(form.Value), $"Type a number, {NumberFigures.Of(SettingRange.Of(setting))}. To go back to the default use the button below.");
        }

        return Task.FromResult<Notice?>(null);
    }

    public Task<Notice?> TakeBackAsync(CurrentUser user, Setting setting, NumberForm form, Action<string, string> refuse, CancellationToken cancel) =>
        InTurn.SaveAsync(() => TryAsync(user, setting, null, form, refuse, cancel), refuse);

    private async Task<Notice?> TryAsync(CurrentUser user, Setting setting, double? value, NumberForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        // Two numbers that have to be in order are not set past each other at the same moment: who saves second on the programme is told, and looks again.
        var programme = await db.Programmes.SingleAsync(p => p.Id == user.ProgrammeId, cancel);
        db.Entry(programme).Property(p => p.Name).IsModified = true;
        var own = await db.Settings.Where(s => s.ProgrammeId == user.ProgrammeId).ToDictionaryAsync(s => s.Key, cancel);
        var now = new LimitSet(own.ToDictionary(s => s.Key, s => s.Value.Value));
        if (SettingOrder.Check(setting, value ?? setting.Default, now) is { } refusal)
        {
            refuse(nameof(form.Value), NumberFigures.Of(refusal, value ?? setting.Default));
            return null;
        }

        var stored = own.GetValueOrDefault(setting.Key);
        if (stored?.Value == value)
        {
            return new Notice(true, $"“{NumberFigures.Name(setting)}” is {NumberFigures.With(setting, now[setting])} already.");
        }

        if ((stored?.Version ?? 0) != form.Version || Seen(stored) != (form.Seen ?? ""))
        {
            return Clash(setting, stored, form, refuse);
        }

        Write(db, user, setting, stored, value);
        db.HaveJudged(await db.Tanks.Where(t => t.ProgrammeId == user.ProgrammeId && t.ClosedAt == null).Select(t => t.Id).ToListAsync(cancel), Instants.ToMillisecond(time.GetUtcNow().UtcDateTime));
        await db.SaveChangesAsync(cancel);
        newFacts.Tell();
        feed.Tell([user.ProgrammeId]);
        return new Notice(true, value is { } set
            ? $"“{NumberFigures.Name(setting)}” is {NumberFigures.With(setting, set)} now. Every open tank is judged anew by it."
            : $"“{NumberFigures.Name(setting)}” is back to its default, {NumberFigures.With(setting, setting.Default)}. Every open tank is judged anew by it.");
    }

    public static string Seen(ProgrammeSetting? stored) => stored is null ? "" : NumberFigures.Of(stored.Value);

    private static void Write(HatcheryDb db, CurrentUser user, Setting setting, ProgrammeSetting? stored, double? value)
    {
        if (value is not { } set)
        {
            db.Settings.Remove(stored!);
        }
        else if (stored is null)
        {
            db.Settings.Add(new ProgrammeSetting { ProgrammeId = user.ProgrammeId, Key = setting.Key, Value = set });
        }
        else
        {
            stored.Value = set;
        }
    }

    /// <summary>Somebody else saved in between: theirs is told, what was typed is kept, and sending it again saves it.</summary>
    private static Notice? Clash(Setting setting, ProgrammeSetting? theirs, NumberForm form, Action<string, string> refuse)
    {
        (form.Version, form.Seen) = (theirs?.Version ?? 0, Seen(theirs));
        refuse("", $"Somebody changed this number meanwhile: it is now {NumberFigures.With(setting, theirs?.Value ?? setting.Default)}. What you typed is kept below; send it again if it should replace that.");
        return null;
    }
}
