using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Kit;
using Tankside.Science.Units;
using Tankside.Storage;

namespace Tankside.Portal.Kit;

/// <summary>A depot with its school, and who hands things out there.</summary>
/// <param name="At">Its own position, or else its school's.</param>
public sealed record ListedDepot(KitDepot Depot, string? School, string? Holder, string? Phone, GeoPoint? At)
{
    /// <summary>"stock room, Old Mill School; ask at the office".</summary>
    public string Words
    {
        get
        {
            var named = School is null || Depot.Name.Contains(School, StringComparison.OrdinalIgnoreCase) ? Depot.Name : $"{Depot.Name}, {School}";
            return string.IsNullOrWhiteSpace(Holder) ? named : $"{named}; {Holder}";
        }
    }
}

/// <summary>The depots of a programme.</summary>
public static class Depots
{
    public static async Task<IReadOnlyList<ListedDepot>> LoadAsync(HatcheryDb db, Guid programmeId, CancellationToken cancel)
    {
        var rows = await (
            from depot in db.KitDepots.AsNoTracking()
            join school in db.Schools on depot.SchoolId equals school.Id into schools
            from school in schools.DefaultIfEmpty()
            join person in db.Users on depot.HolderId equals person.Id into people
            from person in people.DefaultIfEmpty()
            where depot.ProgrammeId == programmeId
            orderby depot.Name
            select new
            {
                depot,
                School = school == null ? null : school.Name,
                Latitude = school == null ? null : school.Latitude,
                Longitude = school == null ? null : school.Longitude,
                Person = person == null ? null : person.Name,
                Phone = person == null ? null : person.PhoneNumber,
            }).ToListAsync(cancel);
        return
        [
            .. rows.Select(r => new ListedDepot(
                r.depot, r.School, r.Person ?? r.depot.Holder, r.depot.Phone ?? r.Phone,
                GeoPoint.Of(r.depot.Latitude, r.depot.Longitude) ?? GeoPoint.Of(r.Latitude, r.Longitude))),
        ];
    }
}
