using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Places;
using Tankside.Storage;

namespace Tankside.Portal.Places;

/// <summary>The marks that tanks are still judged by, with the standing word of each school.</summary>
public sealed class AreaMarks
{
    /// <summary>How long after its end a mark still asks for tanks that nobody has read; later they are silent in their own right.</summary>
    private static readonly TimeSpan AfterEnd = TimeSpan.FromDays(14);

    private readonly DateTime now;
    private readonly ILookup<(Guid Sweep, Guid School), SweepReply> replies;

    private AreaMarks(DateTime now, IEnumerable<SweepReply> replies) =>
        (this.now, this.replies) = (now, replies.ToLookup(r => (r.SweepId, r.SchoolId)));

    public static async Task<AreaMarks> LoadAsync(HatcheryDb db, Surroundings surroundings, DateTime now, CancellationToken cancel)
    {
        var sweeps = surroundings.All.SelectMany(p => p.Sweeps).Where(s => Matters(s, now)).Select(s => s.Id).Distinct().ToList();
        return new AreaMarks(now, sweeps.Count == 0 ? [] : await db.SweepReplies.AsNoTracking()
            .Where(r => sweeps.Contains(r.SweepId) && r.Answer != null).ToListAsync(cancel));
    }

    public IReadOnlyList<AreaMark> Of(TankPlace place) =>
        [.. place.Sweeps.Where(s => Matters(s, now)).Select(s => AreaMark.Of(s, SchoolWord.Standing(replies[(s.Id, place.School.Id)])))];

    private static bool Matters(AreaSweep sweep, DateTime now) =>
        !sweep.IsTakenBack() && sweep.From <= now && (sweep.EndedAt is null || sweep.EndedAt > now - AfterEnd);
}
