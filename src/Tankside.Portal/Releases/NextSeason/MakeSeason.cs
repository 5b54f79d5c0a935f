using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Seasons;
using Tankside.Portal.Accounts;
using Tankside.Portal.Places.Sheets;
using Tankside.Storage;

namespace Tankside.Portal.Releases.NextSeason;

/// <summary>
/// Makes the next season out of the last: the ticked tanks take part and are opened, the others are closed. The season before keeps its
/// account: a tank that would change it stays as it is until that account is sealed.
/// </summary>
public sealed class MakeSeason(IDbContextFactory<HatcheryDb> databases, TimeProvider time)
{
    public async Task<NextSeasonAtHand> LookAsync(CurrentUser user, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await NextSeasonAtHand.LoadAsync(db, user, time, cancel);
    }

    public Task<Notice?> HandleAsync(CurrentUser user, SeasonForm form, IReadOnlySet<Guid> ticked, Action<string, string> refuse, CancellationToken cancel) =>
        InTurn.SaveAsync(() => TryAsync(user, form, ticked, refuse, cancel), refuse);

    private async Task<Notice?> TryAsync(CurrentUser user, SeasonForm form, IReadOnlySet<Guid> ticked, Action<string, string> refuse, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        await using var transaction = await db.Database.BeginTransactionAsync(cancel);
        // Of two who make a season at once, the second waits here and then sees the first one's.
        await db.Programmes.Where(p => p.Id == user.ProgrammeId).ExecuteUpdateAsync(set => set.SetProperty(p => p.Name, p => p.Name), cancel);
        if (await db.Seasons.AnyAsync(s => s.Id == form.Id && s.ProgrammeId == user.ProgrammeId, cancel))
        {
            return new Notice(true, "This season was made already.");
        }

        var hand = await NextSeasonAtHand.LoadAsync(db, user, time, cancel);
        var typed = new TypedFields(refuse);
        if (hand.Tanks.FirstOrDefault(t => !ticked.Contains(t.Tank.Id) && t.Left > 0) is { } holds)
        {
            typed.Refuse("", $"Tank {holds.Tank.Code} still holds {Figures.Of(holds.Left, "fish", "fish")} by its ledger, so it cannot be left out. Tick it, or close it in the fish ledger first. Nothing was saved.");
        }

        if (TypedSeason.Read(form, hand.Seasons, null, typed) is not { } season || !typed.AllGood)
        {
            return null;
        }

        db.Seasons.Add(new Season { Id = form.Id, ProgrammeId = user.ProgrammeId, Name = season.Name, StartsOn = season.StartsOn, EndsOn = season.EndsOn });
        var stays = Tick(db, hand, form, ticked);
        if (form.NewCodes)
        {
            await RenewAsync(db, hand, ticked, cancel);
        }

        await db.SaveChangesAsync(cancel);
        await transaction.CommitAsync(cancel);
        return new Notice(true, Told(season, hand, ticked, form, stays));
    }

    /// <summary>The tanks that stay closed, for the sake of an account that is not sealed.</summary>
    private static List<string> Tick(HatcheryDb db, NextSeasonAtHand hand, SeasonForm form, IReadOnlySet<Guid> ticked)
    {
        List<string> stays = [];
        foreach (var (tank, room, school, tookPart, _, opensAccount) in hand.Tanks)
        {
            if (!ticked.Contains(tank.Id))
            {
                tank.ClosedAt ??= hand.Now.Now;
                continue;
            }

            db.SeasonTanks.Add(new SeasonTank { SeasonId = form.Id, TankId = tank.Id, School = school.Name, Room = room.Name });
            room.NewTeacher = room.NewTeacher && !(form.NotNewAnyMore && tookPart);
            if (opensAccount)
            {
                stays.Add(tank.Code);
            }
            else
            {
                tank.ClosedAt = null;
            }
        }

        return stays;
    }

    private static async Task RenewAsync(HatcheryDb db, NextSeasonAtHand hand, IReadOnlySet<Guid> ticked, CancellationToken cancel)
    {
        var ids = hand.Tanks.Select(t => t.Tank.Id).Where(ticked.Contains).ToList();
        foreach (var code in await db.RoomCodes.Where(c => ids.Contains(c.TankId) && c.RevokedAt == null).ToListAsync(cancel))
        {
            code.RevokedAt = hand.Now.Now;
        }

        db.RoomCodes.AddRange(ids.Select(id => RoomSheet.NewCode(id, hand.Now.Now)));
    }

    private static string Told(TypedSeason season, NextSeasonAtHand hand, IReadOnlySet<Guid> ticked, SeasonForm form, List<string> stays)
    {
        var part = hand.Tanks.Count(t => ticked.Contains(t.Tank.Id));
        var codes = form.NewCodes && part > 0 ? " Their room codes are new: print the labels." : "";
        var closed = stays.Count == 0 ? "" : $" {string.Join(", ", stays)} {(stays.Count == 1 ? "stays" : "stay")} closed, because the account of season {hand.Last!.Name} has fish of {(stays.Count == 1 ? "it" : "them")} unaccounted for and is not sealed. Seal it, then open {(stays.Count == 1 ? "it" : "them")} in the fish ledger.";
        return $"Made: season {season.Name}, {SeasonAtHand.Day(season.StartsOn)} to {SeasonAtHand.Day(season.EndsOn)}. {Figures.Of(part, "tank takes", "tanks take")} part.{codes}{closed}";
    }
}
