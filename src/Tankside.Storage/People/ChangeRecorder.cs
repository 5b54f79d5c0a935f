using System.Collections;
using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.ChangeTracking;
using Microsoft.EntityFrameworkCore.Diagnostics;
using Tankside.Hatchery.People;

namespace Tankside.Storage.People;

/// <summary>Who is at work: the person of the request; nobody for the program itself.</summary>
public interface IWhoActs
{
    Guid? PersonId { get; }
}

/// <summary>
/// Writes down what people set, in the transaction that sets it. Rows of any other kind cost it a look at their type. Statements that go
/// past the change tracker go past it too; who writes one for an audited kind adds a <see cref="Note"/>.
/// </summary>
public sealed class ChangeRecorder(TimeProvider time, IWhoActs who) : SaveChangesInterceptor
{
    private const int LongestValue = 400;

    private static readonly string[] NeverTold = ["Id", "ProgrammeId", "Version"];

    public override async ValueTask<InterceptionResult<int>> SavingChangesAsync(
        DbContextEventData eventData, InterceptionResult<int> result, CancellationToken cancellationToken = default)
    {
        if (eventData.Context is HatcheryDb db)
        {
            await WriteAsync(db);
        }

        return result;
    }

    /// <summary>The framework keeps its own keys so; for those nothing is waited for.</summary>
    public override InterceptionResult<int> SavingChanges(DbContextEventData eventData, InterceptionResult<int> result)
    {
        if (eventData.Context is HatcheryDb db)
        {
            WriteAsync(db).GetAwaiter().GetResult();
        }

        return result;
    }

    /// <summary>A save that failed is tried again with the same rows; their lines are written anew with it.</summary>
    public override Task SaveChangesFailedAsync(DbContextErrorEventData eventData, CancellationToken cancellationToken = default)
    {
        foreach (var line in eventData.Context?.ChangeTracker.Entries<Change>().Where(e => e.State == EntityState.Added).ToList() ?? [])
        {
            line.State = EntityState.Detached;
        }

        return Task.CompletedTask;
    }

    /// <summary>The line of a change that is made past the change tracker; it is saved with the context.</summary>
    public Change Note(Guid programmeId, Type type, string which, string name, ChangeKind kind, params IEnumerable<ChangedField> fields) => new()
    {
        ProgrammeId = programmeId,
        At = Now,
        By = who.PersonId,
        What = type.Name,
        Which = which,
        Name = name,
        Kind = kind,
        Fields = ChangedField.Write(fields),
    };

    private DateTime Now
    {
        get
        {
            var now = time.GetUtcNow().UtcDateTime;
            return new DateTime(now.Ticks - (now.Ticks % TimeSpan.TicksPerMillisecond), DateTimeKind.Utc);
        }
    }

    private async Task WriteAsync(HatcheryDb db)
    {
        // Versions.Raise has looked for changes a moment ago; a second look at every row would slow the large saves.
        var detects = db.ChangeTracker.AutoDetectChangesEnabled;
        db.ChangeTracker.AutoDetectChangesEnabled = false;
        try
        {
            List<(EntityEntry Entry, AuditedKind Kind)>? touched = null;
            foreach (var entry in db.ChangeTracker.Entries())
            {
                if (entry.State is EntityState.Unchanged or EntityState.Detached)
                {
                    continue;
                }

                if (entry.Entity is Change && entry.State != EntityState.Added)
                {
                    throw new InvalidOperationException("The record of changes is only added to.");
                }

                if (Audited.Find(entry.Metadata.ClrType) is { } kind)
                {
                    (touched ??= []).Add((entry, kind));
                }
            }

            if (touched is not null)
            {
                await WriteAsync(db, touched);
            }
        }
        finally
        {
            db.ChangeTracker.AutoDetectChangesEnabled = detects;
        }
    }

    private async Task WriteAsync(HatcheryDb db, List<(EntityEntry Entry, AuditedKind Kind)> touched)
    {
        var lines = new List<Change>();
        foreach (var (entry, kind) in touched)
        {
            var fields = FieldsOf(entry, kind);
            if (fields.Count == 0 && entry.State == EntityState.Modified)
            {
                continue;
            }

            lines.AddRange((await kind.Programmes(db, entry.Entity)).Select(programme => new Change
            {
                ProgrammeId = programme,
                At = Now,
                By = who.PersonId,
                What = kind.Type.Name,
                Which = kind.Which(entry.Entity),
                Name = Short(kind.Name(entry.Entity))!,
                About = kind.About(entry.Entity),
                Kind = kind.WithoutRow is not null ? ChangeKind.Changed : KindOf(entry.State),
                Fields = ChangedField.Write(fields),
            }));
        }

        db.AddRange(lines);
    }

    private static ChangeKind KindOf(EntityState state) => state switch
    {
        EntityState.Added => ChangeKind.Added,
        EntityState.Deleted => ChangeKind.Removed,
        _ => ChangeKind.Changed,
    };

    private static List<ChangedField> FieldsOf(EntityEntry entry, AuditedKind kind)
    {
        var fields = new List<ChangedField>();
        foreach (var property in entry.Properties)
        {
            var name = property.Metadata.Name;
            if (NeverTold.Contains(name) || kind.Left.Contains(name) || (kind.OnlyWithheld && !kind.Withheld.Contains(name) && !kind.Told.Contains(name)))
            {
                continue;
            }

            var none = kind.WithoutRow?.Invoke(entry.Entity, name);
            var before = Text(entry.State == EntityState.Added ? none : property.OriginalValue);
            var after = Text(entry.State == EntityState.Deleted ? none : property.CurrentValue);
            if (before != after)
            {
                fields.Add(kind.Withheld.Contains(name) ? new ChangedField(name, null, null, Withheld: true) : new ChangedField(name, Short(before), Short(after)));
            }
        }

        return fields;
    }

    private static string? Text(object? value) => value switch
    {
        null => null,
        string text => text,
        DateTime instant => instant.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture),
        DateOnly day => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
        TimeOnly hour => hour.ToString("HH:mm", CultureInfo.InvariantCulture),
        IEnumerable several => string.Join(", ", several.Cast<object?>().Select(Text)),
        IFormattable number => number.ToString(null, CultureInfo.InvariantCulture),
        _ => value.ToString(),
    };

    private static string? Short(string? text) => text is { Length: > LongestValue } ? text[..(LongestValue - 1)] + "…" : text;
}
