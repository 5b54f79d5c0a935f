using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Accounts;
using Tankside.Portal.Releases.Sealing;
using Tankside.Portal.Shell;
using Tankside.Storage;
using Tankside.Storage.Seasons;

namespace Tankside.Portal.Releases.Ledger;

/// <summary>What a person types to take a line back.</summary>
public sealed class CorrectionForm
{
    public Guid Id { get; set; }

    /// <summary>What the number should have been; empty when the whole line was wrong.</summary>
    public string? RightCount { get; set; }

    public string? Why { get; set; }
}

/// <summary>
/// Takes a line back with an opposite one that names it, and enters the right number as a line of its own. Both halves of a move are taken
/// back together.
/// </summary>
public sealed class CorrectLine(IDbContextFactory<HatcheryDb> databases, TimeProvider time, Say say)
{
    public Task<Notice?> HandleAsync(
        CurrentUser user, string code, long lineId, CorrectionForm form, Action<string, string> refuse, CancellationToken cancel) =>
        InTurn.SaveAsync(() => TryAsync(user, code, lineId, form, refuse, cancel), refuse);

    private async Task<Notice?> TryAsync(
        CurrentUser user, string code, long lineId, CorrectionForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var now = Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);
        var reach = TanksInReach.Of(db, user);
        var line = await (
            from entry in db.Ledger.AsNoTracking()
            join tank in reach on entry.TankId equals tank.Id
            where entry.Id == lineId && tank.Code == code
            select entry).SingleOrDefaultAsync(cancel);
        var typed = new TypedFields(refuse, say);
        if (line is null || LedgerRules.CheckCorrection(line, await db.Ledger.AnyAsync(e => e.CorrectsId == lineId, cancel)) is not null)
        {
            var why = line is null ? null : LedgerRules.CheckCorrection(line, alreadyCorrected: true);
            typed.Refuse("", why is { } known ? LedgerWords.Word(known) : say["There is no such line in this ledger."]);
            return null;
        }

        await using var turn = await SeasonTurn.ShareAsync(db, line.SeasonId, cancel);
        if (await Seals.IsClosedAsync(db, line.SeasonId, cancel))
        {
            refuse("", Seals.Closed);
            return null;
        }

        var right = typed.OptionalCount(nameof(form.RightCount), form.RightCount);
        var note = typed.Text(nameof(form.Why), form.Why);
        if (right is { } number && (number < 0 || number > LedgerRules.MostAtOnce || (number == 0 && line.Kind != LedgerKind.Counted)))
        {
            typed.Refuse(nameof(form.RightCount), say["Type the right number, or leave this empty when the whole line was wrong."]);
        }

        if (note is null)
        {
            typed.Refuse(nameof(form.Why), say["Say in a few words what was wrong, so that the next reader understands."]);
        }

        var halves = await HalvesAsync(db, line, cancel);
        var within = await reach.CountAsync(t => halves.Select(h => h.TankId).Contains(t.Id), cancel);
        if (within < halves.Count)
        {
            typed.Refuse("", say["The other half of this move is in another school’s tank. Ask your coordinator to correct it."]);
        }

        if (!typed.AllGood)
        {
            return null;
        }

        foreach (var half in halves)
        {
            db.Ledger.Add(Copy(half, -half.Count, OppositeId(half.Id), half.TransferId, half.Id));
            if (right is { } count)
            {
                db.Ledger.Add(Copy(half, count, form.Id, half.TransferId is null ? null : form.Id, null));
            }
        }

        await db.SaveChangesAsync(cancel);
        await turn.CommitAsync(cancel);
        return new Notice(true, right is { } instead
            ? say.Of("Corrected: {0} is taken back and {1} entered instead.", Figures.Of(line.Count), Figures.Of(instead))
            : say.Of("Taken back: {0}, {1}. Both lines stay to be read.", say[line.Kind.Word()].ToLowerInvariant(), Figures.Of(line.Count)));

        LedgerEntry Copy(LedgerEntry of, int count, Guid sender, Guid? transfer, long? corrects) => new()
        {
            SenderId = sender,
            TransferId = transfer,
            SeasonId = of.SeasonId,
            TankId = of.TankId,
            Kind = of.Kind,
            Count = count,
            About = of.About && corrects is not null,
            CountedBy = of.CountedBy,
            At = of.At, // It takes back what was said of that moment; a count made later has seen the truth already.
            EnteredAt = now,
            EnteredBy = user.PersonId,
            CorrectsId = corrects,
            Note = note,
        };
    }

    private static async Task<List<LedgerEntry>> HalvesAsync(HatcheryDb db, LedgerEntry line, CancellationToken cancel) => line.TransferId is { } move
        ? await db.Ledger.AsNoTracking().Where(e => e.TransferId == move && e.CorrectsId == null).ToListAsync(cancel)
        : [line];

    /// <summary>The same for everybody who takes this line back, so that the database lets only one of them.</summary>
    internal static Guid OppositeId(long lineId)
    {
        Span<byte> bytes = stackalloc byte[16];
        "takeback"u8.CopyTo(bytes);
        System.Buffers.Binary.BinaryPrimitives.WriteInt64BigEndian(bytes[8..], lineId);
        return new Guid(bytes);
    }
}
