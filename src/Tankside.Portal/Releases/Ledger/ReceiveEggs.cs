using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Accounts;
using Tankside.Portal.Releases.Sealing;
using Tankside.Portal.Shell;
using Tankside.Storage;
using Tankside.Storage.Seasons;

namespace Tankside.Portal.Releases.Ledger;

/// <summary>What a person types when eggs arrive.</summary>
public class ReceiptForm : LineForm
{
    public string? Lot { get; set; }

    public string? DeadOnArrival { get; set; }

    public string? BoxTemperature { get; set; }

    public string? TankTemperature { get; set; }

    public string? Unit { get; set; }

    public string? Run { get; set; }
}

/// <summary>What a receipt carries that comes from a delivery run's pack.</summary>
/// <param name="Known">Holds what was refused already, so that one answer names all that is to be fixed.</param>
/// <param name="Along">Adds what is saved with the receipt, all or none.</param>
public sealed record PackReceipt(Guid StopId, int? TemperedMinutes, string ReceivedBy, TypedFields Known, Func<HatcheryDb, Receipt, Task> Along);

/// <summary>The hand-over of eggs at the tank: the receipt and its ledger lines, all or none.</summary>
public sealed class ReceiveEggs(IDbContextFactory<HatcheryDb> databases, TimeProvider time, Say say)
{
    public Task<Notice?> HandleAsync(CurrentUser user, string code, ReceiptForm form, Action<string, string> refuse, CancellationToken cancel) =>
        HandleAsync(user, code, form, refuse, null, cancel);

    public Task<Notice?> HandleAsync(CurrentUser user, string code, ReceiptForm form, Action<string, string> refuse, PackReceipt? pack, CancellationToken cancel) =>
        InTurn.SaveAsync(() => TryAsync(user, code, form, refuse, pack, cancel), refuse);

    private async Task<Notice?> TryAsync(CurrentUser user, string code, ReceiptForm form, Action<string, string> refuse, PackReceipt? pack, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var season = await SeasonAtHand.LoadAsync(db, user.ProgrammeId, time, cancel);
        var tank = await TanksInReach.Of(db, user).SingleAsync(t => t.Code == code, cancel);
        if (await db.Receipts.AnyAsync(r => r.Id == form.Id || (pack != null && r.StopId == pack.StopId), cancel))
        {
            return EnterLine.SentBefore;
        }

        await using var turn = await SeasonTurn.ShareAsync(db, season.Season!.Id, cancel);
        if (await Seals.IsClosedAsync(db, season.Season!.Id, cancel))
        {
            refuse("", Seals.Closed);
            return null;
        }

        var known = new Known(
            tank, season,
            await db.EggLots.Where(l => l.SeasonId == season.Season!.Id).ToListAsync(cancel),
            await db.Allotments.Where(a => a.TankId == tank.Id && a.SeasonId == season.Season!.Id).SumAsync(a => a.Eggs, cancel),
            TankBalance.Of(await TankLedger.EntriesAsync(db, tank.Id, season.Season!.Id, cancel), closed: false).Received);
        if (Read(form, known, refuse, pack) is not { } receipt || pack?.Known.AllGood == false)
        {
            return null;
        }

        db.Receipts.Add(receipt);
        db.Ledger.Add(Line(LedgerKind.Received, receipt.Eggs, form.Id));
        if (receipt.DeadOnArrival > 0)
        {
            db.Ledger.Add(Line(LedgerKind.DeadOnArrival, receipt.DeadOnArrival, null));
        }

        if (pack is not null)
        {
            await pack.Along(db, receipt);
        }

        await db.SaveChangesAsync(cancel);
        await turn.CommitAsync(cancel);
        return new Notice(true, say.Count(
            receipt.Eggs, "Entered: {0} egg received in {1}, {2} of them dead on arrival.", "Entered: {0} eggs received in {1}, {2} of them dead on arrival.",
            tank.Code, Figures.Of(receipt.DeadOnArrival)));

        LedgerEntry Line(LedgerKind kind, int count, Guid? sender) => new()
        {
            SenderId = sender,
            SeasonId = receipt.SeasonId,
            TankId = tank.Id,
            Kind = kind,
            Count = count,
            About = form.About && kind == LedgerKind.Received,
            CountedBy = receipt.CountedBy,
            At = receipt.At,
            EnteredAt = season.Now,
            EnteredBy = user.PersonId,
            Note = receipt.Note,
        };
    }

    private sealed record Known(Tank Tank, SeasonAtHand Season, List<EggLot> Lots, int Allotted, int Received);

    private Receipt? Read(ReceiptForm form, Known known, Action<string, string> refuse, PackReceipt? pack)
    {
        var typed = new TypedFields(refuse, say);
        var season = known.Season;
        var lot = typed.Choice(nameof(form.Lot), form.Lot, say["Choose the lot that the eggs came from."]);
        var eggs = typed.Count(nameof(form.Count), form.Count, say["Type how many eggs came, the dead ones included."]);
        var dead = typed.OptionalCount(nameof(form.DeadOnArrival), form.DeadOnArrival) ?? 0;
        var method = LedgerWords.Method(typed, nameof(form.CountedBy), form.CountedBy);
        var at = typed.Moment(nameof(form.Day), form.Day, nameof(form.Time), form.Time, season.Clock);
        var unit = typed.Choice<TemperatureUnit>(nameof(form.Unit), form.Unit, say["Choose °F or °C."]);
        var boxC = typed.WaterC(nameof(form.BoxTemperature), form.BoxTemperature, unit);
        var tankC = typed.WaterC(nameof(form.TankTemperature), form.TankTemperature, unit);
        var run = typed.Text(nameof(form.Run), form.Run);
        var note = typed.Text(nameof(form.Note), form.Note);
        if (lot != Guid.Empty && known.Lots.All(l => l.Id != lot))
        {
            typed.Refuse(nameof(form.Lot), say["This lot is not one of this season’s. Choose another."]);
        }

        if (typed.AllGood)
        {
            var refusals = LedgerRules.Check(LedgerKind.Received, eggs, at, season.Now, season.Starts, known.Tank.ClosedAt is not null)
                .Concat(LedgerRules.CheckReceipt(eggs, dead, known.Allotted, known.Received, note is not null));
            foreach (var why in refusals.Concat(dead < 0 ? [LineRefusal.NothingCounted] : []))
            {
                typed.Refuse(FieldOf(why, dead < 0), LedgerWords.Word(why, season, say));
            }
        }

        return !typed.AllGood ? null : new Receipt
        {
            Id = form.Id,
            SeasonId = season.Season!.Id,
            TankId = known.Tank.Id,
            LotId = lot,
            At = season.Exactly(at),
            Run = run,
            Eggs = eggs,
            DeadOnArrival = dead,
            CountedBy = method,
            BoxC = boxC,
            TankC = tankC,
            StopId = pack?.StopId,
            TemperedMinutes = pack?.TemperedMinutes,
            ReceivedBy = pack?.ReceivedBy,
            Note = note,
        };
    }

    private static string FieldOf(LineRefusal why, bool negativeDead) => why switch
    {
        LineRefusal.InTheFuture or LineRefusal.BeforeTheSeason => nameof(ReceiptForm.Day),
        LineRefusal.MoreDeadThanCame => nameof(ReceiptForm.DeadOnArrival),
        LineRefusal.OverAllotment => nameof(ReceiptForm.Note),
        LineRefusal.NothingCounted when negativeDead => nameof(ReceiptForm.DeadOnArrival),
        _ => nameof(ReceiptForm.Count),
    };
}
