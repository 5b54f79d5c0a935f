using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Kit;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Kit;

public sealed class ConsumableForm
{
    /// <summary>Made when the page is shown, so that the form sent twice is one line.</summary>
    public Guid Id { get; set; }

    public string? Name { get; set; }

    public string? Unit { get; set; }

    public string? InStock { get; set; }

    public string? ReorderAt { get; set; }

    public string? ReorderQuantity { get; set; }

    public string? Supplier { get; set; }

    /// <summary>Its version when it was opened to be changed; empty for a new one. How many there are is not changed by this form.</summary>
    public int? Version { get; set; }

    public static ConsumableForm Of(Consumable row) => new()
    {
        Id = row.Id,
        Name = row.Name,
        Unit = row.Unit,
        ReorderAt = KitWords.Plain(row.ReorderAt),
        ReorderQuantity = KitWords.Plain(row.ReorderQuantity),
        Supplier = row.Supplier,
        Version = row.Version,
    };
}

/// <summary>What changed of one consumable.</summary>
public sealed class StockMove
{
    public Guid Id { get; set; }

    public Guid Of { get; set; }

    /// <summary>"+24" came, "-3" went out, "7" was counted.</summary>
    public string? Change { get; set; }
}

/// <summary>Consumables: how many there are, and what is to be ordered.</summary>
public sealed class EditStock(IDbContextFactory<HatcheryDb> databases, TimeProvider time, Say say)
{
    private const int Most = 100_000;

    public async Task<IReadOnlyList<Consumable>> LoadAsync(CurrentUser user, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var stock = await db.Consumables.AsNoTracking().Where(c => c.ProgrammeId == user.ProgrammeId).ToListAsync(cancel);
        return [.. stock.OrderByDescending(c => c.ToOrder).ThenByDescending(c => c.IsLow).ThenBy(c => c.Name, StringComparer.OrdinalIgnoreCase)];
    }

    /// <summary>Adds it to the list, or changes it where the form carries the version that was looked at.</summary>
    public Task<Notice?> KeepAsync(CurrentUser user, ConsumableForm form, Action<string, string> refuse, CancellationToken cancel) =>
        InTurn.SaveAsync(() => TryKeepAsync(user, form, refuse, cancel), refuse);

    private async Task<Notice?> TryKeepAsync(CurrentUser user, ConsumableForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var stock = await db.Consumables.SingleOrDefaultAsync(c => c.Id == form.Id && c.ProgrammeId == user.ProgrammeId, cancel);
        if (stock is not null && form.Version is null)
        {
            return new Notice(true, "This was added already.");
        }

        if (form.Version is not null && stock is null)
        {
            return new Notice(false, "This is not in your programme’s list. Nothing was changed.");
        }

        if (stock is not null && stock.Version != form.Version)
        {
            form.Version = stock.Version;
            refuse("", say.Of("Somebody changed {0} meanwhile. Nothing of yours was saved; what you typed is kept. Look at the list, and send it again if it still holds.", stock.Name));
            return null;
        }

        var typed = new TypedFields(refuse, say);
        var name = typed.Name(nameof(form.Name), form.Name, "Name it, such as “Nitrite test, reagents”.");
        var unit = typed.Name(nameof(form.Unit), form.Unit, "Say what is counted, such as “bottle of 250 ml”.");
        var inStock = stock?.InStock ?? Count(nameof(form.InStock), form.InStock, "Count what is there; 0 is an answer.");
        var at = Count(nameof(form.ReorderAt), form.ReorderAt, "Say at how many it is ordered again.");
        var quantity = Count(nameof(form.ReorderQuantity), form.ReorderQuantity, "Say how many are then ordered.");
        var supplier = typed.Text(nameof(form.Supplier), form.Supplier);
        if (await db.Consumables.AnyAsync(c => c.ProgrammeId == user.ProgrammeId && c.Name == name && c.Id != form.Id, cancel))
        {
            typed.Refuse(nameof(form.Name), say.Of("“{0}” stands in the list already. Change its number there.", name));
        }

        if (!typed.AllGood)
        {
            return null;
        }

        var isNew = stock is null;
        if (stock is null)
        {
            stock = new Consumable
            {
                Id = form.Id == Guid.Empty ? Guid.NewGuid() : form.Id,
                ProgrammeId = user.ProgrammeId,
                Name = name,
                Unit = unit,
                InStock = inStock,
            };
            db.Consumables.Add(stock);
        }

        (stock.Name, stock.Unit, stock.ReorderAt, stock.ReorderQuantity, stock.Supplier) = (name, unit, at, quantity, supplier);
        await db.SaveChangesAsync(cancel);
        return new Notice(true, isNew ? say.Of("Added: {0}, {1} × {2}.", name, inStock, unit) : say.Of("Changed: {0}, {1} × {2}.", name, inStock, unit));

        int Count(string field, string? text, string whenEmpty)
        {
            var count = typed.Count(field, text, whenEmpty);
            if (count is < 0 or > Most)
            {
                typed.Refuse(field, say.Of("It has to lie between {0} and {1}; this is {2}.", 0, Most, count));
            }

            return count;
        }
    }

    /// <summary>"+24" adds, "-3" takes, a bare number is a new count. Two who do it at once are both counted.</summary>
    public async Task<Notice> ChangeAsync(CurrentUser user, StockMove move, CancellationToken cancel)
    {
        string? refused = null;
        var told = await InTurn.SaveAsync(() => TryChangeAsync(user, move, cancel), (_, why) => refused = why);
        return told ?? new Notice(false, refused!);
    }

    private async Task<Notice?> TryChangeAsync(CurrentUser user, StockMove move, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (await db.Consumables.SingleOrDefaultAsync(c => c.Id == move.Of && c.ProgrammeId == user.ProgrammeId, cancel) is not { } stock)
        {
            return new Notice(false, "This is not in your programme’s list. Nothing was changed.");
        }

        if (await db.ConsumableMoves.AnyAsync(m => m.ConsumableId == stock.Id && m.SenderId == move.Id, cancel))
        {
            return new Notice(true, say.Of("This was entered already: {0}, {1} left.", stock.Name, stock.InStock));
        }

        var typed = (move.Change ?? "").Trim().Replace('−', '-');
        if (!int.TryParse(typed, System.Globalization.NumberStyles.AllowLeadingSign, System.Globalization.CultureInfo.InvariantCulture, out var number) || Math.Abs((long)number) > Most)
        {
            return new Notice(false, say.Of("“{0}” is not understood for {1}. Type +24 for what came, -3 for what went out, or 7 for a new count. Nothing was changed.", typed, stock.Name));
        }

        var change = typed[0] is '+' or '-' ? number : number - stock.InStock;
        if (stock.InStock + change is < 0 or > Most)
        {
            return new Notice(false, say.Of("There are only {0} of {1}, so {2} cannot go out. Nothing was changed; if there are more, type the new count first.", stock.InStock, stock.Name, -change));
        }

        stock.InStock += change;
        stock.OrderedAt = change > 0 ? null : stock.OrderedAt;
        db.ConsumableMoves.Add(new ConsumableMove
        {
            ConsumableId = stock.Id,
            SenderId = move.Id == Guid.Empty ? Guid.NewGuid() : move.Id,
            Change = change,
            InStockAfter = stock.InStock,
            At = Instants.ToMillisecond(time.GetUtcNow().UtcDateTime),
            By = user.PersonId,
        });
        await db.SaveChangesAsync(cancel);
        return new Notice(true, stock.ToOrder
            ? say.Of("{0}: {1} left. Order {2} now.", stock.Name, stock.InStock, stock.ReorderQuantity)
            : say.Of("{0}: {1} left.", stock.Name, stock.InStock));
    }

    /// <summary>Somebody ordered it; it is not called for until it comes.</summary>
    public async Task<Notice> OrderedAsync(CurrentUser user, Guid of, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var now = Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);
        var marked = await db.Consumables.Where(c => c.Id == of && c.ProgrammeId == user.ProgrammeId && c.OrderedAt == null)
            .ExecuteUpdateAsync(set => set.SetProperty(c => c.OrderedAt, now).SetProperty(c => c.Version, c => c.Version + 1), cancel);
        return marked == 0 ? new Notice(true, "It is ordered already.") : new Notice(true, "Noted as ordered. It is asked for again only after something came.");
    }
}
