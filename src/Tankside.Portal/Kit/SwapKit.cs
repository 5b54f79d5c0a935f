using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Kit;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Kit;

/// <summary>One piece out of a tank, another in.</summary>
public sealed class SwapForm : KitActForm
{
    /// <summary>Serial of the piece that goes in.</summary>
    public string? Fresh { get; set; }

    /// <summary>"faulty" or "working": what the piece that comes out is.</summary>
    public string? OldIs { get; set; }

    /// <summary>A depot's id, or "me" for whoever swaps and takes it along.</summary>
    public string? OldGoesTo { get; set; }
}

/// <summary>Swaps two pieces at a tank: both lines of history and both pieces in one transaction, or nothing at all.</summary>
public sealed class SwapKit(IDbContextFactory<HatcheryDb> databases, ActOnKit acts, Say say)
{
    public const string WithMe = "me", Faulty = "faulty", Working = "working";

    /// <summary>What to tell; null when it was refused and the field says why.</summary>
    public Task<Notice?> HandleAsync(CurrentUser user, string serial, SwapForm form, Action<string, string> refuse, CancellationToken cancel) =>
        InTurn.SaveAsync(() => TryAsync(user, serial, form, refuse, cancel), refuse);

    private async Task<Notice?> TryAsync(CurrentUser user, string serial, SwapForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var old = await db.KitItems.SingleAsync(k => k.ProgrammeId == user.ProgrammeId && k.Serial == serial, cancel);
        if (await db.KitActs.AnyAsync(a => a.ItemId == old.Id && a.SenderId == form.Id, cancel))
        {
            return ActOnKit.SentBefore;
        }

        if (await ActOnKit.HasMovedOnAsync(db, old, form.Acts, refuse, say, cancel))
        {
            form.Acts = old.Acts;
            return null;
        }

        var typed = new TypedFields(refuse);
        var names = await KitNames.LoadAsync(db, user.ProgrammeId, cancel);
        var fresh = await db.KitItems.SingleOrDefaultAsync(k => k.ProgrammeId == user.ProgrammeId && k.Serial == form.Fresh, cancel);
        if (fresh is null)
        {
            typed.Refuse(nameof(form.Fresh), "Choose the piece that goes in.");
        }

        if (form.OldIs is not (Faulty or Working))
        {
            typed.Refuse(nameof(form.OldIs), "Say whether the piece that comes out still works.");
        }

        var note = typed.Text(nameof(form.Note), form.Note);
        var oldTo = form.OldGoesTo == WithMe ? new KitSpot(KitPlace.Person, user.PersonId) : ActOnKit.DepotOf(typed, nameof(form.OldGoesTo), form.OldGoesTo, names);
        var at = await acts.TimeOfActAsync(db, typed, form, old, names.Clock, cancel);
        at = typed.AllGood ? await acts.TimeOfActAsync(db, typed, form, fresh!, names.Clock, cancel) is var later && later > at ? later : at : at;
        if (!typed.AllGood)
        {
            return null;
        }

        if (old.InTankId is not { } tankId || !names.Tanks.TryGetValue(tankId, out var tank))
        {
            typed.Refuse("", KitWords.WhyNot(KitRefusal.InNoTank));
            return null;
        }

        if (KitRules.WhyNoSwap(old, fresh!, tank.ForKit) is { } why)
        {
            typed.Refuse(nameof(form.Fresh), KitWords.WhyNot(why));
            return null;
        }

        var after = form.OldIs == Faulty || old.Condition == KitCondition.Faulty ? KitCondition.Faulty : old.Condition;
        db.KitActs.Add(KitRules.Write(old, KitActKind.Swapped, oldTo, form.Id, user.PersonId, at, note, after));
        db.KitActs.Add(KitRules.Write(fresh!, KitActKind.Swapped, new KitSpot(KitPlace.Tank, tankId), form.Id, user.PersonId, at, note));
        await ActOnKit.FollowBatchAsync(db, fresh!, cancel);
        await db.SaveChangesAsync(cancel);
        return new Notice(true, say.Of("Swapped at {0}: {1} is in, {2} is out ({3}) and {4}. Look after half an hour whether it cools and flows.", tank.Tank.Code, fresh!.Serial, old.Serial, say[KitWords.Of(old.Condition)], names.Of(old.Spot, say)));
    }
}
