using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Accounts;
using Tankside.Portal.Releases.Bookings;
using Tankside.Portal.Releases.Permits;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Releases.OnTheDay;

/// <summary>
/// Takes what is entered on the day: ticks, counts, which count stands, and the release. Only the number that stands after two adults have
/// counted goes into the ledger.
/// </summary>
public sealed class WorkDay(IDbContextFactory<HatcheryDb> databases, RecordRelease record, TimeProvider time, Say say)
{
    public Task<Notice?> TickAsync(CurrentUser user, Guid bookingId, DayForm form, Action<string, string> refuse, CancellationToken cancel) => InTurn.SaveAsync(
        async () =>
        {
            await using var db = await databases.CreateDbContextAsync(cancel);
            if (await BookingBoard.InReach(db, user).SingleOrDefaultAsync(b => b.Id == bookingId, cancel) is not { } booking)
            {
                return Gone;
            }

            booking.Ticked = DayChecklist.Known(form.Ticked);
            await db.SaveChangesAsync(cancel);
            return new Notice(true, say.Of("Kept: {0} of {1} points are ticked.", Figures.Of(booking.Ticked.Count), Figures.Of(DayChecklist.Points.Count)));
        },
        refuse);

    public Task<Notice?> CountAsync(CurrentUser user, Guid bookingId, DayForm form, Action<string, string> refuse, CancellationToken cancel) =>
        InTurn.SaveAsync(() => TryCountAsync(user, bookingId, form, refuse, cancel), refuse);

    public Task<Notice?> StandAsync(CurrentUser user, Guid bookingId, DayForm form, Action<string, string> refuse, CancellationToken cancel) =>
        InTurn.SaveAsync(() => TryStandAsync(user, bookingId, form, cancel), refuse);

    public async Task<Notice?> LetGoAsync(CurrentUser user, Guid bookingId, DayForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var sheet = await DaySheets.LoadAsync(db, user, time, bookingId, cancel);
        if (sheet?.Find(form.Tank) is not { } tank)
        {
            return Gone;
        }

        var typed = new TypedFields(refuse, say);
        var signed = typed.Name(nameof(form.SignedAs), form.SignedAs, "Type your full name, as under a paper. It says that the count is right and that these fish were let go here.");
        if (typed.AllGood && !signed.Contains(' ', StringComparison.Ordinal))
        {
            typed.Refuse(nameof(form.SignedAs), "Type first and last name, as under a paper.");
        }

        if (tank.Tally is not TallyState.Stands stands)
        {
            typed.Refuse("", say.Of("Two adults have to count {0} first, and their numbers have to agree or one of them has to stand. Nothing was entered.", tank.Code));
            return null;
        }

        return typed.AllGood ? await record.HandleAsync(user, Filled(sheet, form, stands), refuse, cancel, new DaySigned(bookingId, signed)) : null;
    }

    private static ReleaseForm Filled(DaySheet sheet, DayForm form, TallyState.Stands stands) => new()
    {
        Id = form.Id,
        Tank = form.Tank,
        Site = sheet.Site.Id.ToString(),
        Permit = sheet.Permit?.Permit.Id.ToString(),
        Day = form.Day,
        Time = form.Time,
        Fish = stands.Fish.ToString(System.Globalization.CultureInfo.InvariantCulture),
        TankTemperature = form.TankTemperature,
        StreamTemperature = form.StreamTemperature,
        Unit = form.Unit,
        Note = form.Note,
        EmptiesTank = form.EmptiesTank,
    };

    private static Notice Gone => new(false, "There is no such booking or tank among those you may work with. Nothing was changed.");

    private async Task<Notice?> TryCountAsync(CurrentUser user, Guid bookingId, DayForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (await db.TallyCounts.AnyAsync(c => c.Id == form.Id, cancel))
        {
            return new Notice(true, "This count was entered already.");
        }

        if ((await DaySheets.LoadAsync(db, user, time, bookingId, cancel))?.Find(form.Tank) is not { } tank)
        {
            return Gone;
        }

        var typed = new TypedFields(refuse, say);
        var counter = typed.Name(nameof(form.Counter), form.Counter, "Type the name of the adult who counted.");
        var fish = typed.Count(nameof(form.Fish), form.Fish, "Type how many were counted. Count; do not take the dead from what came.");
        if (typed.AllGood && fish is < 0 or > LedgerRules.MostAtOnce)
        {
            typed.Refuse(nameof(form.Fish), say.Of("Type a number from 0 to {0}.", Figures.Of(LedgerRules.MostAtOnce)));
        }

        if (tank.Released is not null)
        {
            typed.Refuse("", say.Of("The fish of {0} are entered as released already. Take that back first if the count was wrong.", tank.Code));
        }
        else if (tank.Next != (form.Turn, form.Seat))
        {
            typed.Refuse("", say.Of("Somebody entered a count of {0} meanwhile. Yours is not kept yet: look at the sheet again and enter it there.", tank.Code));
        }
        else if (tank.Counts.FirstOrDefault(c => c.Turn == form.Turn) is { } other && string.Equals(other.Counter, counter, StringComparison.OrdinalIgnoreCase))
        {
            typed.Refuse(nameof(form.Counter), say.Of("{0} has counted already. The second count is another adult’s, made without looking at the first.", other.Counter));
        }

        if (!typed.AllGood)
        {
            return null;
        }

        db.TallyCounts.Add(new TallyCount
        {
            Id = form.Id,
            BookingId = bookingId,
            TankId = tank.Booked.Tank.Id,
            Turn = form.Turn,
            Seat = form.Seat,
            Counter = counter,
            Fish = fish,
            At = Now,
            EnteredBy = user.PersonId,
        });
        await db.SaveChangesAsync(cancel);
        return new Notice(true, form.Seat == 1 ? say.Of("Kept: the first count of {0}. It is shown when the second is in.", tank.Code) : say.Of("Kept: the second count of {0}.", tank.Code));
    }

    private async Task<Notice?> TryStandAsync(CurrentUser user, Guid bookingId, DayForm form, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        // The counts before the sheet: whoever names one after this line raises its version, and is seen at the next try.
        var counts = await db.TallyCounts.Where(c => c.BookingId == bookingId).ToListAsync(cancel);
        var sheet = await DaySheets.LoadAsync(db, user, time, bookingId, cancel);
        var tank = sheet?.Tanks.FirstOrDefault(t => t.Counts.Any(c => c.Id == form.Stands));
        if (tank is not { Tally: TallyState.Differs differs, Released: null } || (form.Stands != differs.First.Id && form.Stands != differs.Second.Id))
        {
            return new Notice(false, "This count is not among those to choose from any more. Nothing was changed; this is how it stands.");
        }

        var count = counts.Single(c => c.Id == form.Stands);
        var other = counts.Single(c => c.Id == (count.Id == differs.First.Id ? differs.Second.Id : differs.First.Id));
        (count.StandsAt, count.StandsBy) = (Now, user.PersonId);
        // Both are saved, so that of two who name different ones at the same moment the second is told.
        db.Entry(other).Property(c => c.Version).IsModified = true;
        await db.SaveChangesAsync(cancel);
        return new Notice(true, say.Of("Kept: {0}, counted by {1}, stands for {2}.", Figures.Of(count.Fish), count.Counter, tank.Code));
    }

    private DateTime Now => Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);
}
