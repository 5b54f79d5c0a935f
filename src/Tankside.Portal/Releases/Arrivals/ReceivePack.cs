using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Eggs.Runs;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Portal.Accounts.Mail;
using Tankside.Portal.Releases.Ledger;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Releases.Arrivals;

/// <summary>What is written down when a pack of a delivery run is opened at the tank.</summary>
public sealed class ArrivalForm : ReceiptForm
{
    public string? Tempered { get; set; }

    public string? ReceivedBy { get; set; }
}

/// <summary>A stop as the arrival form needs it.</summary>
/// <param name="Received">The receipt, once there is one.</param>
public sealed record ArrivingPack(Guid RunId, string Run, Guid StopId, int Eggs, string Tank, string School, Guid LotId, string Lot, Receipt? Received, SeasonAtHand Season);

/// <summary>
/// The arrival of a run's pack: the receipt with its ledger lines, made as any receipt is, and in the same transaction the tick that it was handed
/// over and, when too many are dead, the letters that say so.
/// </summary>
public sealed class ReceivePack(IDbContextFactory<HatcheryDb> databases, ReceiveEggs receive, Outbox outbox, TanksideOptions options, TimeProvider time, Say say)
{
    private const int LongestTempering = 300;

    /// <summary>Null for a stop of a tank that is not within the person's reach.</summary>
    public async Task<ArrivingPack?> FindAsync(CurrentUser user, Guid runId, Guid stopId, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var found = await (
            from stop in db.RunStops.AsNoTracking()
            join run in db.DeliveryRuns on stop.RunId equals run.Id
            join tank in TanksInReach.Of(db, user) on stop.TankId equals tank.Id
            join room in db.Classrooms on tank.ClassroomId equals room.Id
            join school in db.Schools on room.SchoolId equals school.Id
            join lot in db.EggLots on stop.LotId equals lot.Id
            where stop.Id == stopId && run.Id == runId && run.ProgrammeId == user.ProgrammeId
            select new { stop, Run = run.Name, tank.Code, School = school.Name, Room = room.Name, Lot = lot.Code }).SingleOrDefaultAsync(cancel);
        return found is null ? null : new ArrivingPack(
            runId, found.Run, stopId, found.stop.Eggs, found.Code, $"{found.School}, {found.Room}", found.stop.LotId, found.Lot,
            await db.Receipts.AsNoTracking().OrderBy(r => r.At).FirstOrDefaultAsync(r => r.StopId == stopId, cancel),
            await SeasonAtHand.LoadAsync(db, user.ProgrammeId, time, cancel));
    }

    public async Task<Notice?> HandleAsync(CurrentUser user, ArrivingPack pack, ArrivalForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        var typed = new TypedFields(refuse, say);
        var minutes = typed.OptionalCount(nameof(form.Tempered), form.Tempered);
        if (minutes is < 0 or > LongestTempering)
        {
            typed.Refuse(nameof(form.Tempered), say.Of("Give whole minutes from 0 to {0}.", LongestTempering));
        }

        var by = typed.Name(nameof(form.ReceivedBy), form.ReceivedBy, say["Name the adult who took the eggs over."]);
        if (typed.Text(nameof(form.Note), form.Note) is null && int.TryParse(string.Concat((form.Count ?? "").Where(char.IsDigit)), out var count) && count > pack.Eggs)
        {
            typed.Refuse(nameof(form.Note), say.Of("The pack was of {0}. Say in the note why more are entered, and send it again.", Figures.Of(pack.Eggs)));
        }

        (form.Lot, form.Run) = (pack.LotId.ToString(), pack.Run);
        var notice = await receive.HandleAsync(
            user, pack.Tank, form, (field, why) => typed.Refuse(field, why),
            new PackReceipt(pack.StopId, minutes, by, typed, (db, receipt) => AlongAsync(db, user, pack, receipt, cancel)), cancel);
        if (notice is { Good: true })
        {
            outbox.Wake();
        }

        return notice;
    }

    private async Task AlongAsync(HatcheryDb db, CurrentUser user, ArrivingPack pack, Receipt receipt, CancellationToken cancel)
    {
        db.RunTicks.Add(new RunTick
        {
            Id = receipt.Id,
            RunId = pack.RunId,
            StopId = pack.StopId,
            Deed = TickDeed.HandedOver,
            At = receipt.At,
            ReceivedAt = Instants.ToMillisecond(time.GetUtcNow().UtcDateTime),
        });
        if (!ArrivalAlarm.IsRaised(receipt.Eggs, receipt.DeadOnArrival))
        {
            return;
        }

        var coordinators = await (
            from m in db.Memberships
            join p in db.Users on m.PersonId equals p.Id
            where m.ProgrammeId == user.ProgrammeId && m.Role == Role.Coordinator
            select p).AsNoTracking().ToListAsync(cancel);
        foreach (var coordinator in coordinators.DistinctBy(p => p.Id))
        {
            var text =
                $"""
                Hello {coordinator.Name},

                {Figures.Of(receipt.DeadOnArrival)} of {Figures.Of(receipt.Eggs, "egg", "eggs")} of lot {pack.Lot} were dead when the box was opened at {pack.Tank}, {pack.School}, run {pack.Run}.

                Ring the class, and look at who else had this lot, car and cooler:

                {new Uri(options.PublicUrl, $"runs/{pack.RunId}")}

                {pack.Season.Programme.Name}, by Tankside
                """;
            await outbox.WriteAsync(
                db, new NewLetter($"{ArrivalWords.KeyStart}{receipt.Id} {coordinator.Id}", user.ProgrammeId, coordinator.Id, coordinator.Email!, $"{pack.Tank}: {Figures.Of(receipt.DeadOnArrival)} eggs dead on arrival", text), cancel);
        }
    }
}
