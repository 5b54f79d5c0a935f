using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Seasons;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Releases;

/// <summary>The season that lines are entered into, on the programme's own clock.</summary>
public sealed record SeasonAtHand(Programme Programme, ProgrammeClock Clock, Season? Season, DateTime Now)
{
    public DateOnly Today => Clock.Day(Now);

    public DateTime Starts => Season is { } season ? Clock.Utc(season.StartsOn, TimeOnly.MinValue) : DateTime.MinValue;

    /// <summary>
    /// A time typed to the minute: the minute that it is now means this very moment, so that lines written one after the other stay in that
    /// order. A clock that runs ahead is taken as now.
    /// </summary>
    public DateTime Exactly(DateTime typed) => typed > Now.AddMinutes(-1) ? Now : typed;

    /// <summary>A point in time as people write it, on the programme's clock.</summary>
    public string Moment(DateTime utc, Say? reader = null) => Clock.Local(utc).ToString("d MMM yyyy, HH:mm", Culture(reader));

    public string Day(DateTime utc, Say? reader = null) => Clock.Local(utc).ToString("d MMM yyyy", Culture(reader));

    public static string Day(DateOnly day, Say? reader = null) => day.ToString("d MMM yyyy", Culture(reader));

    private static CultureInfo Culture(Say? reader) => reader is { IsSpanish: true } ? reader.Culture : CultureInfo.InvariantCulture;

    public static async Task<SeasonAtHand> LoadAsync(HatcheryDb db, Guid programmeId, TimeProvider time, CancellationToken cancel)
    {
        var programme = await db.Programmes.AsNoTracking().SingleAsync(p => p.Id == programmeId, cancel);
        var clock = ProgrammeClock.Of(programme.TimeZone);
        var now = Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);
        return new SeasonAtHand(programme, clock, await TotalsOfSeason.FindAsync(db, programmeId, null, clock.Day(now), cancel), now);
    }
}
