using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Kit;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Portal.Flags.FirstAidTexts;
using Tankside.Portal.Kit;
using Tankside.Portal.Places;
using Tankside.Portal.Releases.Bookings;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Flags.News;

/// <summary>Something that others did, or that happened, and the page on which it is seen.</summary>
public sealed record NewsLine(DateTime At, string What, string Address, bool IsNew);

/// <summary>What happened of late that somebody should know of: read from the histories, so that nothing is told twice and nothing is kept for it.</summary>
public sealed class NewsBook(IDbContextFactory<HatcheryDb> databases, TimeProvider time)
{
    /// <summary>How far it looks back, days.</summary>
    public const int DaysBack = 14;

    private const int Most = 200;

    /// <summary>The newest first.</summary>
    public async Task<IReadOnlyList<NewsLine>> LoadAsync(CurrentUser user, Say say, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var now = time.GetUtcNow().UtcDateTime;
        var from = now.AddDays(-DaysBack);
        var seen = await db.NewsSeen.Where(n => n.PersonId == user.PersonId && n.ProgrammeId == user.ProgrammeId).Select(n => (DateTime?)n.At).SingleOrDefaultAsync(cancel) ?? from;
        List<(DateTime At, string What, string Address)> news = [.. await FlagsAsync(db, user, from, say, cancel), .. await BookingsAsync(db, user, from, say, cancel)];
        if (user.Is(Role.Teacher, Role.Coordinator, Role.ProgrammeLead))
        {
            news.AddRange(await PhotosAsync(db, user, from, say, cancel));
        }

        if (user.Is(Role.Coordinator, Role.ProgrammeLead))
        {
            news.AddRange(await AnswersAsync(db, user, from, cancel));
        }

        if (user.Is(Role.KitHand, Role.Coordinator))
        {
            news.AddRange(await FailuresAsync(db, user, from, say, cancel));
        }

        if (user.Is(Role.AgencyContact))
        {
            news.AddRange(await SealsAsync(db, user, from, cancel));
        }

        return [.. news.OrderByDescending(n => n.At).ThenBy(n => n.What, StringComparer.Ordinal).Take(Most).Select(n => new NewsLine(n.At, n.What, n.Address, n.At > seen))];
    }

    /// <summary>From now on all that happened until this moment is read. An older press never makes read things new again.</summary>
    public async Task ReadAsync(CurrentUser user, DateTime until, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var now = time.GetUtcNow().UtcDateTime;
        var at = until < now ? until : now;
        if (await db.NewsSeen.SingleOrDefaultAsync(n => n.PersonId == user.PersonId && n.ProgrammeId == user.ProgrammeId, cancel) is { } seen)
        {
            seen.At = at > seen.At ? at : seen.At;
        }
        else
        {
            db.NewsSeen.Add(new NewsSeen { PersonId = user.PersonId, ProgrammeId = user.ProgrammeId, At = at });
        }

        await db.SaveChangesAsync(cancel);
    }

    private static async Task<IEnumerable<(DateTime, string, string)>> FlagsAsync(HatcheryDb db, CurrentUser user, DateTime from, Say say, CancellationToken cancel)
    {
        var me = user.PersonId;
        var events =
            from line in db.FlagEvents.AsNoTracking()
            join flag in db.Flags on line.FlagId equals flag.Id
            join tank in db.TanksOf(user) on flag.TankId equals tank.Id
            where line.At > @from && line.By != me
            select new { line.At, line.Deed, line.To, line.By, flag.Kind, flag.TakenBy, tank.Code };
        events = user.Role switch
        {
            Role.Teacher => events.Where(e => e.Deed == FlagDeed.Opened || e.Deed == FlagDeed.Cleared || e.Deed == FlagDeed.Closed || e.Deed == FlagDeed.FirstAidSent || e.Deed == FlagDeed.SpareReserved),
            Role.KitHand => events.Where(e => e.Deed == FlagDeed.SpareReserved || e.Deed == FlagDeed.SpareGivenBack),
            Role.Coordinator or Role.ProgrammeLead => events.Where(e => (e.Deed == FlagDeed.Assigned && e.To == me)
                || (e.TakenBy == me && (e.Deed == FlagDeed.Noted || e.Deed == FlagDeed.Closed || e.Deed == FlagDeed.Called || e.Deed == FlagDeed.PromiseDue || e.Deed == FlagDeed.SpareReserved))),
            _ => events.Where(e => false),
        };
        var address = user.Is(Role.Coordinator, Role.ProgrammeLead) ? "/round?tank=" : "/tanks/";
        return (await events.OrderByDescending(e => e.At).Take(Most).ToListAsync(cancel))
            .Select(e => (e.At, say.Of(Sentence(e.Deed), e.Code, KindNames.Of(e.Kind).In(say.Language)), address + e.Code));
    }

    /// <summary>With the tank's code and the kind of trouble.</summary>
    private static string Sentence(FlagDeed deed) => deed switch
    {
        FlagDeed.Opened => "{0}: {1} was noticed",
        FlagDeed.Cleared => "{0}: {1} is over",
        FlagDeed.Closed => "{0}: the call about {1} is closed",
        FlagDeed.FirstAidSent => "{0}: first aid for {1} was sent",
        FlagDeed.SpareReserved => "{0}: a spare is promised, {1}",
        FlagDeed.SpareGivenBack => "{0}: the spare is not needed any more, {1}",
        FlagDeed.Assigned => "{0}: given to you, {1}",
        FlagDeed.Called => "{0}: somebody was reached, {1}",
        FlagDeed.PromiseDue => "{0}: a promise was due and nothing came, {1}",
        _ => "{0}: somebody wrote about {1}",
    };

    private static async Task<IEnumerable<(DateTime, string, string)>> BookingsAsync(HatcheryDb db, CurrentUser user, DateTime from, Say say, CancellationToken cancel)
    {
        if (user.Is(Role.KitHand))
        {
            return [];
        }

        var acts =
            from act in db.BookingActs.AsNoTracking()
            join booking in db.ReleaseBookings on act.BookingId equals booking.Id
            join season in db.Seasons on booking.SeasonId equals season.Id
            join school in db.Schools on booking.SchoolId equals school.Id
            where season.ProgrammeId == user.ProgrammeId && act.At > @from && act.By != user.PersonId && (user.SchoolId == null || school.Id == user.SchoolId)
            orderby act.At descending
            select new { act.At, act.Deed, School = school.Name, booking.Id };
        return (await acts.Take(Most).ToListAsync(cancel))
            .Select(a => (a.At, say.Of("Release day of {0}: {1}", a.School, say[BookingWords.Of(a.Deed)].ToLowerInvariant()), $"/releases/bookings/{a.Id}"));
    }

    private static async Task<IEnumerable<(DateTime, string, string)>> PhotosAsync(HatcheryDb db, CurrentUser user, DateTime from, Say say, CancellationToken cancel)
    {
        var photos =
            from photo in db.TankPhotos.AsNoTracking()
            join tank in db.TanksOf(user) on photo.TankId equals tank.Id
            where photo.ReceivedAt > @from && photo.SentBy != user.PersonId
            orderby photo.ReceivedAt descending
            select new { photo.ReceivedAt, tank.Code };
        return (await photos.Take(Most).ToListAsync(cancel)).Select(p => (p.ReceivedAt, say.Of("{0}: a photo came", p.Code), $"/tanks/{p.Code}/photos"));
    }

    private static async Task<IEnumerable<(DateTime, string, string)>> AnswersAsync(HatcheryDb db, CurrentUser user, DateTime from, CancellationToken cancel)
    {
        var answers =
            from reply in db.SweepReplies.AsNoTracking()
            join sweep in db.AreaSweeps on reply.SweepId equals sweep.Id
            join school in db.Schools on reply.SchoolId equals school.Id
            where sweep.ProgrammeId == user.ProgrammeId && reply.AnsweredAt != null && reply.AnsweredAt > @from
            orderby reply.AnsweredAt descending
            select new { At = reply.AnsweredAt!.Value, school.Name, sweep.Id };
        return (await answers.Take(Most).ToListAsync(cancel)).Select(a => (a.At, $"{a.Name} answered about its area", $"/sweeps/{a.Id}"));
    }

    private static async Task<IEnumerable<(DateTime, string, string)>> FailuresAsync(HatcheryDb db, CurrentUser user, DateTime from, Say say, CancellationToken cancel)
    {
        var failures =
            from act in db.KitActs.AsNoTracking()
            join item in db.KitItems on act.ItemId equals item.Id
            where item.ProgrammeId == user.ProgrammeId && act.Kind == KitActKind.Fault && act.At > @from && act.By != user.PersonId
            orderby act.At descending
            select new { act.At, item.Kind, item.Serial };
        return (await failures.Take(Most).ToListAsync(cancel))
            .Select(f => (f.At, say.Of("{0} {1} is faulty", say[KitWords.Capital(KitWords.Of(f.Kind))], f.Serial), $"/kit/{f.Serial}"));
    }

    private static async Task<IEnumerable<(DateTime, string, string)>> SealsAsync(HatcheryDb db, CurrentUser user, DateTime from, CancellationToken cancel)
    {
        var seals =
            from seal in db.SeasonSeals.AsNoTracking()
            join season in db.Seasons on seal.SeasonId equals season.Id
            where season.ProgrammeId == user.ProgrammeId && seal.SealedAt > @from
            select new { seal.SealedAt, season.Name };
        return (await seals.ToListAsync(cancel)).Select(s => (s.SealedAt, $"The account of season {s.Name} was sealed", "/totals"));
    }
}
