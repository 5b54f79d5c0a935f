using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Hatchery.Seasons;
using Tankside.Storage;
using static Tankside.Portal.Flags.Research.StudiedTanks;

namespace Tankside.Portal.Flags.Research;

/// <summary>The rows of the researchers' tables, read and written one by one.</summary>
internal static class ResearchRows
{
    public const string LedgerHeader = "line,tank,at,kind,count,about,counted_by,with_reading,transfer,corrects_line";

    public const string ReadingsHeader =
        "tank,at,source,water_c,room_c,moving,bubbles,level_ok,clear,chiller_running,ice_on_coil,dead_eggs,dead_alevins,dead_fry,hatched,swimming,fed,fungus,gasping,"
        + "ph,ammonia_total_mg_l,nitrite_mg_l,oxygen_mg_l,chlorine_mg_l,water_changed_percent";

    public const string FlagsHeader = "tank,kind,urgency,opened_at,settled_at,settlement,outcome,cause";

    /// <summary>Lines and moves are numbered anew: a person's form gave the ids of the portal.</summary>
    public static async IAsyncEnumerable<object?[]> Ledger(HatcheryDb db, Season season, StudiedTanks tanks)
    {
        var (lines, moves) = (new Dictionary<long, int>(), new Dictionary<Guid, int>());
        await foreach (var e in db.Ledger.AsNoTracking().Where(e => e.SeasonId == season.Id).OrderBy(e => e.Id).AsAsyncEnumerable())
        {
            lines[e.Id] = lines.Count + 1;
            var move = e.TransferId is not { } id ? (int?)null : moves.TryGetValue(id, out var known) ? known : moves[id] = moves.Count + 1;
            yield return
            [
                lines[e.Id], tanks.NumberOf(e.TankId), Moment(e.At), Word(e.Kind.ToString()), e.Count, Yes(e.About), Word(e.CountedBy?.ToString()), Yes(e.Reading is not null), move,
                e.CorrectsId is { } corrected && lines.TryGetValue(corrected, out var line) ? line : null,
            ];
        }
    }

    public static async IAsyncEnumerable<object?[]> Readings(HatcheryDb db, Season season, ProgrammeClock clock, StudiedTanks tanks)
    {
        var (from, to) = Days(season, clock);
        var ids = tanks.Ids.ToList();
        await foreach (var reading in db.Readings.AsNoTracking()
            .Where(r => ids.Contains(r.TankId) && r.At >= from && r.At < to && r.State == ReadingState.Accepted && r.CorrectedBy == null)
            .OrderBy(r => r.TankId).ThenBy(r => r.At).ThenBy(r => r.Id).AsAsyncEnumerable())
        {
            var s = reading.Seen;
            yield return
            [
                tanks.NumberOf(reading.TankId), Moment(reading.At), Word(reading.Source.ToString()), Number(s.WaterC), Number(s.RoomC), Yes(s.Moving), Yes(s.Bubbles), Yes(s.LevelOk),
                Yes(s.Clear), Yes(s.ChillerRunning), Yes(s.IceOnCoil), s.DeadEggs, s.DeadAlevins, s.DeadFry, Word(s.Hatched?.ToString()), Word(s.Swimming?.ToString()), Yes(s.Fed), Yes(s.Fungus),
                Yes(s.Gasping), Number(s.Ph), Number(s.AmmoniaTotalMgL), Number(s.NitriteMgL), Number(s.OxygenMgL), Number(s.ChlorineMgL), Number(s.WaterChangedPercent),
            ];
        }
    }

    public static async IAsyncEnumerable<object?[]> Flags(HatcheryDb db, Season season, ProgrammeClock clock, StudiedTanks tanks)
    {
        var (from, to) = Days(season, clock);
        var ids = tanks.Ids.ToList();
        var closings = (await db.FlagEvents.AsNoTracking().Where(e => e.Deed == FlagDeed.Closed && e.At >= from).OrderBy(e => e.Id)
            .Select(e => new { e.FlagId, e.Outcome, e.Cause }).ToListAsync()).ToLookup(e => e.FlagId);
        await foreach (var flag in db.Flags.AsNoTracking().Where(f => f.TankId != null && ids.Contains(f.TankId.Value) && f.OpenedAt >= from && f.OpenedAt < to)
            .OrderBy(f => f.TankId).ThenBy(f => f.OpenedAt).ThenBy(f => f.Kind).AsAsyncEnumerable())
        {
            var closing = closings[flag.Id].LastOrDefault();
            yield return
            [
                tanks.NumberOf(flag.TankId!.Value), FlagNames.NameOf(flag.Kind), FlagNames.NameOf(flag.Urgency), Moment(flag.OpenedAt), flag.SettledAt is { } at ? Moment(at) : null,
                Word(flag.Settlement?.ToString()), Word(closing?.Outcome?.ToString()), Word(closing?.Cause?.ToString()),
            ];
        }
    }

    private static (DateTime From, DateTime To) Days(Season season, ProgrammeClock clock) =>
        (clock.Utc(season.StartsOn, TimeOnly.MinValue), clock.Utc(season.EndsOn.AddDays(1), TimeOnly.MinValue));

    private static string Moment(DateTime utc) => utc.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture);

    private static string? Yes(bool? said) => said switch { true => "yes", false => "no", null => null };

    /// <summary>"DeadOnArrival" is written "dead-on-arrival".</summary>
    /// <summary>"ChillerDead" is "chiller-dead" in a file.</summary>
    public static string? Word(string? name) =>
        name is null ? null : string.Concat(name.Select((c, i) => char.IsUpper(c) ? (i == 0 ? "" : "-") + char.ToLowerInvariant(c) : c.ToString()));
}
