using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Seasons;
using Tankside.Portal.Releases.Files;
using Tankside.Science.Eggs;
using Tankside.Storage;

namespace Tankside.Portal.Flags.Research;

/// <summary>A season's tanks under numbers that say nothing about where they stand.</summary>
public sealed class StudiedTanks
{
    public const string Header = "tank,school,lot,species,fertilised_from,fertilised_to,hatchery_mean_c,litres,jacket,set_point_c,elevation_m,disinfectant";

    private readonly Dictionary<Guid, string> numbers = [];

    public List<object?[]> Rows { get; } = [];

    public IReadOnlyCollection<Guid> Ids => numbers.Keys;

    public string NumberOf(Guid tankId) => numbers[tankId];

    public static async Task<StudiedTanks> LoadAsync(HatcheryDb db, Season season, CancellationToken cancel)
    {
        var found = await (
            from tank in db.Tanks.AsNoTracking()
            join room in db.Classrooms on tank.ClassroomId equals room.Id
            join school in db.Schools on room.SchoolId equals school.Id
            where db.Ledger.Any(e => e.TankId == tank.Id && e.SeasonId == season.Id)
            orderby tank.Id
            select new { tank, SchoolId = school.Id, school.ElevationM, school.Disinfectant }).ToListAsync(cancel);
        var lots = await Releases.LotsInTanks.LoadAsync(db, season.Id, cancel);
        var schools = found.Select(f => f.SchoolId).Distinct().Order().Select((id, i) => (id, i)).ToDictionary(s => s.id, s => $"S{s.i + 1:000}");
        var result = new StudiedTanks();
        foreach (var (row, i) in found.Select((f, i) => (f, i)))
        {
            var lot = lots.Of(row.tank.Id);
            result.numbers[row.tank.Id] = $"T{i + 1:000}";
            result.Rows.Add(
            [
                result.NumberOf(row.tank.Id), schools[row.SchoolId], lot?.Code, lot is null ? null : SpeciesCodes.CodeOf(lot.Species), lot?.FertilisedFrom, lot?.FertilisedTo,
                Number(lot?.HatcheryMeanC), Number(row.tank.Litres), row.tank.Jacket.ToString().ToLowerInvariant(), Number(row.tank.SetPointC),
                Number(row.ElevationM), row.Disinfectant.ToString().ToLowerInvariant(),
            ]);
        }

        return result;
    }

    /// <summary>A temperature may be below nought and gets no apostrophe.</summary>
    public static object? Number(double? value) => value is { } number ? new PlainNumber(number.ToString("R", CultureInfo.InvariantCulture)) : null;
}
