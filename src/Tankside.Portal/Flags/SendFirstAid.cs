using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Portal.Accounts.Mail;
using Tankside.Portal.Flags.FirstAidTexts;
using Tankside.Portal.People;
using Tankside.Portal.Places;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Flags;

/// <summary>First aid as it would be sent, and the teachers it would go to.</summary>
public sealed record FirstAidPreview(FirstAidCard Card, FirstAidText Text, IReadOnlyList<FirstAidTeacher> Teachers);

/// <summary>
/// Shows first aid for a flag and sends it to the teachers of its tank's school, each in their own language. The letters, the line of
/// history and the flag's next turn are one transaction: whoever acted on the flag in between is seen first. A text message or a copy goes
/// from the coordinator's own telephone.
/// </summary>
public sealed class SendFirstAid(IDbContextFactory<HatcheryDb> databases, TimeProvider time, RoundFeed feed, Outbox outbox, TanksideOptions options)
{
    /// <summary>How often it is tried again when only the judge refreshed the numbers meanwhile.</summary>
    private const int Tries = 5;

    /// <summary>Null when there is no such flag for this person.</summary>
    public async Task<FirstAidPreview?> PreviewAsync(Guid flagId, string language, CurrentUser by, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var flag = await db.Flags.AsNoTracking().SingleOrDefaultAsync(f => f.Id == flagId && f.ProgrammeId == by.ProgrammeId, cancel);
        return flag is null || !MaySend(by) ? null : await (await DeskAsync(db, flag, by, cancel)).PreviewAsync(db, language, cancel);
    }

    /// <param name="turn">The flag's turn as the person saw it; see <see cref="Flag.Turn"/>.</param>
    public async Task<ActOutcome> SendAsync(Guid flagId, int turn, CurrentUser by, CancellationToken cancel)
    {
        for (var attempt = 1; ; attempt++)
        {
            try
            {
                return await TrySendAsync(flagId, turn, by, cancel);
            }
            catch (DbUpdateException e) when (attempt < Tries && (e is DbUpdateConcurrencyException || e.IsUniqueViolation()))
            {
                // The next try sees whether it was a person (a clash) or the judge (fresher numbers).
            }
        }
    }

    private async Task<ActOutcome> TrySendAsync(Guid flagId, int turn, CurrentUser by, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var flag = await db.Flags.SingleOrDefaultAsync(f => f.Id == flagId && f.ProgrammeId == by.ProgrammeId, cancel);
        if (flag is null || !MaySend(by))
        {
            return new ActOutcome.Refused("This flag is not yours to send from.");
        }

        if (flag.Turn != turn)
        {
            return await ActOnFlag.ClashAsync(db, flag, cancel);
        }

        var desk = await DeskAsync(db, flag, by, cancel);
        var teachers = (await desk.TeachersAsync(db, cancel)).Where(t => t.Email is { Length: > 0 }).ToList();
        if (WhyNot(flag, teachers) is { } why)
        {
            return new ActOutcome.Refused(why);
        }

        await desk.WriteAsync(db, outbox, teachers, cancel);
        await db.SaveChangesAsync(cancel);
        outbox.Wake();
        feed.Tell([flag.ProgrammeId]);
        return new ActOutcome.Done(flag);
    }

    private static bool MaySend(CurrentUser by) => by.Is(Role.Coordinator, Role.ProgrammeLead);

    private static string? WhyNot(Flag flag, List<FirstAidTeacher> teachers) =>
        flag.State == FlagState.Settled ? "This flag is settled already."
        : flag.TankId is null ? "A shared cause has no single teacher: send from each tank's own flag."
        : teachers.Count == 0 ? "No teacher of this school has an account here. Copy the text instead."
        : null;

    private async Task<FirstAidDesk> DeskAsync(HatcheryDb db, Flag flag, CurrentUser by, CancellationToken cancel)
    {
        var now = Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);
        var sender = await db.Users.AsNoTracking().SingleAsync(p => p.Id == by.PersonId, cancel);
        var (place, fish) = flag.TankId is { } tank
            ? ((await Surroundings.LoadAsync(db, [tank], cancel)).Of(tank), (await TankRecords.LoadAsync(db, [tank], now, cancel)).Single().Fish)
            : ((TankPlace?)null, 0);
        var programme = place?.Programme ?? await db.Programmes.AsNoTracking().SingleAsync(p => p.Id == flag.ProgrammeId, cancel);
        var texts = place?.OwnTexts ?? await db.OwnTextsOfAsync(flag.ProgrammeId, cancel);
        return new FirstAidDesk(flag, programme, texts, place, fish, sender, now, options.PublicUrl);
    }
}
