using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Kit;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Kit;

/// <summary>Puts right what the register says of a piece of kit; the line of history says what stood there before.</summary>
public sealed class CorrectKit(IDbContextFactory<HatcheryDb> databases, TimeProvider time, Say say)
{
    private sealed record Told(string Serial, Notice Notice);

    /// <summary>The serial that it has from now on, and what to tell; null when it was refused and the fields say why.</summary>
    public async Task<(string Serial, Notice Notice)?> HandleAsync(CurrentUser user, string serial, NewKitForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        var now = serial;
        var notice = await InTurn.SaveAsync(
            async () =>
            {
                var told = await TryAsync(user, serial, form, refuse, cancel);
                now = told?.Serial ?? serial;
                return told?.Notice;
            },
            refuse);
        return notice is null ? null : (now, notice);
    }

    private async Task<Told?> TryAsync(CurrentUser user, string serial, NewKitForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var item = await db.KitItems.SingleAsync(k => k.ProgrammeId == user.ProgrammeId && k.Serial == serial, cancel);
        if (await db.KitActs.AnyAsync(a => a.ItemId == item.Id && a.SenderId == form.Id, cancel))
        {
            return new(item.Serial, ActOnKit.SentBefore);
        }

        if (await ActOnKit.HasMovedOnAsync(db, item, form.Acts, refuse, say, cancel))
        {
            form.Acts = item.Acts;
            return null;
        }

        var typed = new TypedFields(refuse, say);
        form.Kind = $"{item.Kind}";
        var right = RegisterKit.Read(typed, form, user);
        var names = await KitNames.LoadAsync(db, user.ProgrammeId, cancel);
        await RegisterKit.RefuseKnownAsync(db, typed, right, item.Id, names, cancel);
        if (!typed.AllGood)
        {
            return null;
        }

        // The history is everybody's and is kept in English; the notice is for whoever corrects.
        var (what, told) = (Changes(item, right, Say.InEnglish), Changes(item, right, say));
        if (what.Length == 0)
        {
            return new(item.Serial, new Notice(true, "It stands in the register as you typed it. Nothing was changed."));
        }

        (item.Serial, item.Make, item.Batch, item.Owner) = (right.Serial, right.Make, right.Batch, right.Owner);
        (item.MostLitres, item.BoughtOn, item.WarrantyUntil) = (right.MostLitres, right.BoughtOn, right.WarrantyUntil);
        var at = Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);
        db.KitActs.Add(KitRules.Write(item, KitActKind.Corrected, item.Spot, form.Id, user.PersonId, at, what.Length > TypedFields.LongestText ? what[..TypedFields.LongestText] : what));
        await ActOnKit.FollowBatchAsync(db, item, cancel);
        await db.SaveChangesAsync(cancel);
        return new(item.Serial, new Notice(true, say.Of("Corrected: {0}.", told)));
    }

    private static string Changes(KitItem item, KitItem right, Say to)
    {
        string?[] changes =
        [
            Changed(to["serial|of kit"], item.Serial, right.Serial), Changed(to["make|of kit"], item.Make, right.Make), Changed(to["batch|of kit"], item.Batch, right.Batch),
            Changed(to["litres|of kit"], KitWords.Plain(item.MostLitres), KitWords.Plain(right.MostLitres)), Changed(to["owner|of kit"], item.Owner, right.Owner),
            Changed(to["bought|of kit"], Day(item.BoughtOn), Day(right.BoughtOn)), Changed(to["warranty until|of kit"], Day(item.WarrantyUntil), Day(right.WarrantyUntil)),
        ];
        return string.Join("; ", changes.OfType<string>());

        string? Changed(string name, string? before, string? now) => before == now ? null : $"{name} {Value(before)} → {Value(now)}";

        string Value(string? value) => value is null ? to["not given"] : $"“{value}”";

        string? Day(DateOnly? day) => day is { } known ? KitWords.Day(known, to) : null;
    }
}
