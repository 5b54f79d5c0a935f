using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Kit;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Kit;

/// <summary>What a person enters about one piece of kit.</summary>
public class KitActForm
{
    /// <summary>Made when the page is shown, so that the form sent twice is one act.</summary>
    public Guid Id { get; set; }

    public string? Kind { get; set; }

    /// <summary>Code of the tank it goes to.</summary>
    public string? Tank { get; set; }

    public string? Depot { get; set; }

    public string? Person { get; set; }

    public string? Day { get; set; }

    public string? Time { get; set; }

    public string? Note { get; set; }

    /// <summary>How many acts the history had when the person looked.</summary>
    public int Acts { get; set; }
}

/// <summary>
/// Enters one act: the line of history and the piece as it then stands, together. Of two people who act on the same piece at once the second
/// is told, and nothing of theirs is saved.
/// </summary>
public sealed class ActOnKit(IDbContextFactory<HatcheryDb> databases, TimeProvider time, Say say)
{
    public static Notice SentBefore { get; } = new(true, "This was entered already; it stands in the history once.");

    /// <summary>What to tell; null when it was refused and the field says why.</summary>
    public Task<Notice?> HandleAsync(CurrentUser user, string serial, KitActForm form, Action<string, string> refuse, CancellationToken cancel) =>
        InTurn.SaveAsync(() => TryAsync(user, serial, form, refuse, cancel), refuse);

    private async Task<Notice?> TryAsync(CurrentUser user, string serial, KitActForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var item = await db.KitItems.SingleAsync(k => k.ProgrammeId == user.ProgrammeId && k.Serial == serial, cancel);
        if (await db.KitActs.AnyAsync(a => a.ItemId == item.Id && a.SenderId == form.Id, cancel))
        {
            return SentBefore;
        }

        var typed = new TypedFields(refuse);
        if (await HasMovedOnAsync(db, item, form.Acts, refuse, say, cancel))
        {
            form.Acts = item.Acts;
            return null;
        }

        var names = await KitNames.LoadAsync(db, user.ProgrammeId, cancel);
        var kind = typed.Choice<KitActKind>(nameof(form.Kind), form.Kind, "Choose what happened.");
        var at = await TimeOfActAsync(db, typed, form, item, names.Clock, cancel);
        var note = typed.Text(nameof(form.Note), form.Note);
        var (to, tank) = typed.AllGood ? Where(typed, form, kind, item, names) : default;
        if (typed.AllGood && (!KitRules.EnteredAlone.Contains(kind) ? KitRefusal.TheSamePiece : KitRules.WhyNot(item, kind, tank?.ForKit)) is { } why)
        {
            typed.Refuse(nameof(form.Kind), KitWords.WhyNot(why));
        }

        if (typed.AllGood && kind == KitActKind.Noted && note is null)
        {
            typed.Refuse(nameof(form.Note), "Write the note.");
        }

        if (!typed.AllGood)
        {
            return null;
        }

        db.KitActs.Add(KitRules.Write(item, kind, to, form.Id, user.PersonId, at, note));
        await FollowBatchAsync(db, item, cancel);
        await db.SaveChangesAsync(cancel);
        return new Notice(true, Told(item, kind, names));
    }

    /// <summary>True, and told, when somebody has acted since the person looked.</summary>
    internal static async Task<bool> HasMovedOnAsync(HatcheryDb db, KitItem item, int seen, Action<string, string> refuse, Say say, CancellationToken cancel)
    {
        if (item.Acts == seen)
        {
            return false;
        }

        var last = await db.KitActs.AsNoTracking().Where(a => a.ItemId == item.Id).OrderByDescending(a => a.Number).FirstAsync(cancel);
        refuse("", say.Of(
            "Somebody acted on {0} meanwhile: {1}{2}. Nothing of yours was saved; what you typed is kept. Look at where it is now, and send it again if it still holds.",
            item.Serial, say[KitWords.Done(last.Kind)], last.Note is null ? "" : $", “{last.Note}”"));
        return true;
    }

    /// <summary>When it was done: not in the future and not before what the history tells already.</summary>
    internal async Task<DateTime> TimeOfActAsync(HatcheryDb db, TypedFields typed, KitActForm form, KitItem item, ProgrammeClock clock, CancellationToken cancel)
    {
        var now = Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);
        var at = typed.Moment(nameof(form.Day), form.Day, nameof(form.Time), form.Time, clock);
        if (!typed.AllGood)
        {
            return now;
        }

        if (at > now)
        {
            typed.Refuse(nameof(form.Day), "That is in the future. Enter it when it is done.");
        }

        var last = await db.KitActs.Where(a => a.ItemId == item.Id).OrderByDescending(a => a.Number).Select(a => (DateTime?)a.At).FirstOrDefaultAsync(cancel);

        // A time typed to the minute that it is now means this very moment.
        at = at > now.AddMinutes(-1) ? now : at;
        if (last is { } before && at < before.AddMinutes(-1))
        {
            typed.Refuse(nameof(form.Day), say.Of("Its history goes to {0} already, and is written in the order of time. Give a later time; say in the note when it really was.", clock.Local(before).ToString("d MMM yyyy, HH:mm", CultureInfo.InvariantCulture)));
        }

        return at < last ? last.Value : at;
    }

    private static (KitSpot To, TankOfKit? Tank) Where(TypedFields typed, KitActForm form, KitActKind kind, KitItem item, KitNames names)
    {
        switch (KitRules.GoesTo(kind))
        {
            case KitPlace.Tank:
                var tank = names.Tanks.Values.FirstOrDefault(t => string.Equals(t.Tank.Code, form.Tank?.Trim(), StringComparison.OrdinalIgnoreCase) && t.Tank.ClosedAt is null);
                if (tank is null)
                {
                    typed.Refuse(nameof(form.Tank), "Choose the tank it goes to.");
                }

                return (new KitSpot(KitPlace.Tank, tank?.Tank.Id), tank);
            case KitPlace.Depot:
                return (DepotOf(typed, nameof(form.Depot), form.Depot, names), null);
            case KitPlace.Person:
                var person = typed.Choice(nameof(form.Person), form.Person, "Choose who takes it along.");
                if (typed.AllGood && names.Carriers.All(p => p.Id != person))
                {
                    typed.Refuse(nameof(form.Person), "Choose who takes it along.");
                }

                return (new KitSpot(KitPlace.Person, person), null);
            default:
                return (kind == KitActKind.Repaired && item.Condition == KitCondition.InRepair
                    ? DepotOf(typed, nameof(form.Depot), form.Depot, names)
                    : KitRules.Default(item, kind), null);
        }
    }

    internal static KitSpot DepotOf(TypedFields typed, string field, string? chosen, KitNames names)
    {
        if (Guid.TryParse(chosen, out var id) && names.Depots.TryGetValue(id, out var depot) && depot.Depot.ClosedAt is null)
        {
            return new KitSpot(KitPlace.Depot, id);
        }

        typed.Refuse(field, names.Depots.Count == 0 ? "There is no depot yet: add one first, on the page of the depots." : "Choose the depot it is brought to.");
        return KitSpot.Unknown;
    }

    /// <summary>The tank's own word of its chiller's batch follows the chiller, so that a trouble shared by a batch is seen where it is now.</summary>
    internal static async Task FollowBatchAsync(HatcheryDb db, KitItem item, CancellationToken cancel)
    {
        if (item is { Kind: KitKind.Chiller, Batch: { } batch, InTankId: { } tankId })
        {
            (await db.Tanks.SingleAsync(t => t.Id == tankId, cancel)).ChillerBatch = batch;
        }
    }

    private string Told(KitItem item, KitActKind kind, KitNames names)
    {
        var where = KitRules.GoesTo(kind) is null && kind != KitActKind.Repaired ? "" : $": {names.Of(item.Spot, say)}";
        var next = kind switch
        {
            KitActKind.Fault when item.InTankId is not null => " " + say["Swap it for a working one, or enter that it came back."],
            KitActKind.In when item.ToClean => " " + say["It is to be cleaned before it goes to another room."],
            _ => "",
        };
        return say.Of("Entered: {0} {1}{2}.{3}", item.Serial, say[KitWords.Done(kind)], where, next);
    }
}
