using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Accounts;
using Tankside.Portal.Releases.Bookings;
using Tankside.Portal.Releases.Ledger;
using Tankside.Portal.Releases.Sealing;
using Tankside.Portal.Shell;
using Tankside.Storage;
using Tankside.Storage.Seasons;

namespace Tankside.Portal.Releases.Permits;

/// <summary>The booking whose day it is, and the full name under the release.</summary>
public sealed record DaySigned(Guid BookingId, string SignedAs);

/// <summary>
/// Enters a release and its ledger line, both or none. The permit's version is raised with every release, so that of two at the same moment
/// the second is decided again with the first one counted: together they cannot pass what the permit allows.
/// </summary>
public sealed class RecordRelease(IDbContextFactory<HatcheryDb> databases, TimeProvider time, Say say)
{
    /// <param name="signature">Set on a booking's day; a tank of it is entered once.</param>
    public Task<Notice?> HandleAsync(CurrentUser user, ReleaseForm form, Action<string, string> refuse, CancellationToken cancel, DaySigned? signature = null) =>
        InTurn.SaveAsync(() => TryAsync(user, form, signature, refuse, cancel), refuse);

    private async Task<Notice?> TryAsync(CurrentUser user, ReleaseForm form, DaySigned? signature, Action<string, string> refuse, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (await db.Releases.AnyAsync(r => r.Id == form.Id, cancel))
        {
            return new Notice(true, "This release was entered already; it stands in the list once.");
        }

        var season = await SeasonAtHand.LoadAsync(db, user.ProgrammeId, time, cancel);
        var typed = new TypedFields(refuse, say);
        var said = Read(form, season, typed);
        var chosen = await ChooseAsync(db, user, form, said, typed, cancel);
        await using var turn = season.Season is { } open ? await SeasonTurn.ShareAsync(db, open.Id, cancel) : null;
        if (turn is null)
        {
            typed.Refuse("", "There is no season yet to enter a release in.");
        }
        else if (await Seals.IsClosedAsync(db, season.Season!.Id, cancel))
        {
            typed.Refuse("", Seals.Closed);
        }

        if (signature is not null && chosen is not null)
        {
            await CheckDayAsync(db, user, signature, chosen, typed, cancel);
        }

        if (!typed.AllGood || chosen is null || !await MayBeReleasedAsync(db, chosen, said, season, typed, cancel))
        {
            return null;
        }

        Add(db, form, chosen, said, season, user, signature);
        await db.SaveChangesAsync(cancel);
        await turn!.CommitAsync(cancel);
        return await ToldAsync(db, form, chosen, said, season, cancel);
    }

    private sealed record Said(Guid Site, Guid Permit, int Fish, DateTime At, double? TankC, double? StreamC, string? Note);

    private sealed record Chosen(Tank Tank, ReleaseSite Site, Permit Permit);

    private static Said Read(ReleaseForm form, SeasonAtHand season, TypedFields typed)
    {
        var unit = typed.Choice<TemperatureUnit>(nameof(form.Unit), form.Unit, "Choose °F or °C.");
        return new Said(
            typed.Choice(nameof(form.Site), form.Site, "Choose the place where they were let go."),
            typed.Choice(nameof(form.Permit), form.Permit, "Choose the permit that covers this release."),
            typed.Count(nameof(form.Fish), form.Fish, "Type how many fish were counted. If none lived to be released, enter nothing here: close the tank instead."),
            typed.Moment(nameof(form.Day), form.Day, nameof(form.Time), form.Time, season.Clock),
            typed.WaterC(nameof(form.TankTemperature), form.TankTemperature, unit),
            typed.WaterC(nameof(form.StreamTemperature), form.StreamTemperature, unit),
            typed.Text(nameof(form.Note), form.Note));
    }

    private static async Task<Chosen?> ChooseAsync(
        HatcheryDb db, CurrentUser user, ReleaseForm form, Said said, TypedFields typed, CancellationToken cancel)
    {
        var tank = await TanksInReach.Of(db, user).SingleOrDefaultAsync(t => t.Code == form.Tank, cancel);
        var site = await db.ReleaseSites.SingleOrDefaultAsync(s => s.Id == said.Site && s.ProgrammeId == user.ProgrammeId, cancel);
        var permit = await db.Permits.SingleOrDefaultAsync(p => p.Id == said.Permit && p.ProgrammeId == user.ProgrammeId, cancel);
        if (tank is null)
        {
            typed.Refuse(nameof(form.Tank), "Choose the tank that the fish came from.");
        }

        if (site is null && said.Site != Guid.Empty)
        {
            typed.Refuse(nameof(form.Site), "This place is not in the list any more. Choose another.");
        }

        if (permit is null && said.Permit != Guid.Empty)
        {
            typed.Refuse(nameof(form.Permit), "This permit is not in the list any more. Choose another.");
        }

        return tank is null || site is null || permit is null ? null : new Chosen(tank, site, permit);
    }

    private static async Task<bool> MayBeReleasedAsync(
        HatcheryDb db, Chosen chosen, Said said, SeasonAtHand season, TypedFields typed, CancellationToken cancel)
    {
        var lots = await LotsInTanks.LoadAsync(db, season.Season!.Id, cancel);
        var released = await PermitUse.OfAsync(db, chosen.Permit.Id, cancel);
        var lot = lots.HeldBy(chosen.Tank.Id);
        foreach (var why in ReleaseRules.Check(
            chosen.Permit, chosen.Site, lot?.Species, said.Fish, released, season.Clock.Day(said.At), season.Today, chosen.Tank.ClosedAt is not null))
        {
            typed.Refuse(RefusalWords.FieldOf(why), RefusalWords.Word(why, new PermitUse(chosen.Permit, released), chosen.Site, chosen.Tank.Code, lot, typed.Say));
        }

        foreach (var why in LedgerRules.Check(LedgerKind.Released, said.Fish, said.At, season.Now, season.Starts, tankClosed: false)
            .Where(w => w is LineRefusal.TooMany or LineRefusal.BeforeTheSeason
                || (w == LineRefusal.InTheFuture && season.Clock.Day(said.At) == season.Today)))
        {
            typed.Refuse(why == LineRefusal.TooMany ? nameof(ReleaseForm.Fish) : nameof(ReleaseForm.Day), LedgerWords.Word(why, season, typed.Say));
        }

        return typed.AllGood;
    }

    /// <summary>The booking's version is raised, so that of two who enter its tank at once, or enter and cancel, the second is decided anew.</summary>
    private static async Task CheckDayAsync(HatcheryDb db, CurrentUser user, DaySigned signature, Chosen chosen, TypedFields typed, CancellationToken cancel)
    {
        var booking = await BookingBoard.InReach(db, user).SingleOrDefaultAsync(b => b.Id == signature.BookingId, cancel);
        if (booking?.Slot is null || !booking.TankIds.Contains(chosen.Tank.Id))
        {
            typed.Refuse("", "This booking was changed meanwhile. Nothing was entered; open its sheet again.");
        }
        else if (await db.Releases.AnyAsync(r => r.BookingId == booking.Id && r.TankId == chosen.Tank.Id && r.WithdrawnAt == null, cancel))
        {
            typed.Refuse("", typed.Say.Of("The fish of {0} are entered already for this day. Nothing was entered twice.", chosen.Tank.Code));
        }
        else
        {
            db.Entry(booking).Property(b => b.Version).IsModified = true;
        }
    }

    private static void Add(HatcheryDb db, ReleaseForm form, Chosen chosen, Said said, SeasonAtHand season, CurrentUser user, DaySigned? signature)
    {
        var at = season.Exactly(said.At);
        db.Releases.Add(new Release
        {
            Id = form.Id,
            SeasonId = season.Season!.Id,
            TankId = chosen.Tank.Id,
            SiteId = chosen.Site.Id,
            PermitId = chosen.Permit.Id,
            At = at,
            Fish = said.Fish,
            About = form.About,
            TankC = said.TankC,
            StreamC = said.StreamC,
            EnteredBy = user.PersonId,
            EnteredAt = season.Now,
            Note = said.Note,
            BookingId = signature?.BookingId,
            SignedAs = signature?.SignedAs,
            SignedAt = signature is null ? null : season.Now,
        });
        db.Ledger.Add(new LedgerEntry
        {
            SenderId = form.Id,
            ReleaseId = form.Id,
            SeasonId = season.Season.Id,
            TankId = chosen.Tank.Id,
            Kind = LedgerKind.Released,
            Count = said.Fish,
            About = form.About,
            CountedBy = CountMethod.Hand,
            At = at,
            EnteredAt = season.Now,
            EnteredBy = user.PersonId,
            Note = said.Note,
        });
        db.Entry(chosen.Permit).Property(p => p.Version).IsModified = true;
        if (form.EmptiesTank)
        {
            chosen.Tank.ClosedAt = season.Now;
        }
    }

    private async Task<Notice> ToldAsync(
        HatcheryDb db, ReleaseForm form, Chosen chosen, Said said, SeasonAtHand season, CancellationToken cancel)
    {
        var entries = await TankLedger.EntriesAsync(db, chosen.Tank.Id, season.Season!.Id, cancel);
        var unaccounted = TankBalance.Of(entries, chosen.Tank.ClosedAt is not null).Unaccounted;
        var used = await PermitUse.OfAsync(db, chosen.Permit.Id, cancel);
        var told = say.Of("Entered: {0} fish of {1} released at {2}.", Figures.Of(said.Fish), chosen.Tank.Code, chosen.Site.Name) + " "
            + say.Of("Permit {0} has {1} of {2} left.", chosen.Permit.Number, Figures.Of(chosen.Permit.Fish - used), Figures.Of(chosen.Permit.Fish));
        told += form.EmptiesTank ? " " + say.Of(unaccounted == 1 ? "{0} is closed; {1} is unaccounted for." : "{0} is closed; {1} are unaccounted for.", chosen.Tank.Code, Figures.Of(unaccounted))
            : unaccounted < 0 ? " " + say.Of("That is {0} more than its ledger can explain; the account shows it.", Figures.Of(-unaccounted))
            : "";
        if (PermitRules.HeldUntil(chosen.Permit, await DeliveredAsync(db, chosen, season, cancel)) is { } until && season.Clock.Day(said.At) > until)
        {
            told += " " + say.Of("The permit let them be held until {0}: the agency must know.", SeasonAtHand.Day(until, say));
        }

        var apart = await TemperingApart.OfAsync(db, chosen.Tank.ProgrammeId, cancel);
        return new Notice(true, ReleaseRules.AsksForTempering(said.TankC, said.StreamC, apart)
            ? told + " " + say.Of("Tank and stream were more than {0} °F apart: most permits ask for slow mixing until they are within it.", (apart * 1.8).ToString("0.#", System.Globalization.CultureInfo.InvariantCulture))
            : told);
    }

    private static async Task<DateOnly?> DeliveredAsync(HatcheryDb db, Chosen chosen, SeasonAtHand season, CancellationToken cancel) =>
        await db.Receipts.Where(r => r.SeasonId == season.Season!.Id && r.TankId == chosen.Tank.Id).MinAsync(r => (DateTime?)r.At, cancel) is { } at
            ? season.Clock.Day(at)
            : null;
}
