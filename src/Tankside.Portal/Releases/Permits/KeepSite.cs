using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Accounts;
using Tankside.Science.Units;
using Tankside.Storage;

namespace Tankside.Portal.Releases.Permits;

public sealed class SiteForm
{
    public Guid Id { get; set; }

    /// <summary>As it stood when the page was shown, so that nobody overwrites another's change unseen.</summary>
    public int Version { get; set; }

    public string? Name { get; set; }

    public string? Water { get; set; }

    public string? Latitude { get; set; }

    public string? Longitude { get; set; }

    public string? MostVisitors { get; set; }

    public string? MostBuses { get; set; }

    public string? Access { get; set; }

    public string? Hazards { get; set; }

    /// <summary>Sets the fields of a form that is bound already.</summary>
    public void Fill(ReleaseSite site)
    {
        (Id, Version, Name, Water, Access, Hazards) = (site.Id, site.Version, site.Name, site.Water, site.Access, site.Hazards);
        (Latitude, Longitude) = (site.Latitude?.ToString(CultureInfo.InvariantCulture), site.Longitude?.ToString(CultureInfo.InvariantCulture));
        (MostVisitors, MostBuses) = (site.MostVisitors?.ToString(CultureInfo.InvariantCulture), site.MostBuses?.ToString(CultureInfo.InvariantCulture));
    }
}

/// <summary>Adds a place where fish may be let go, or changes what is known of it.</summary>
public sealed class KeepSite(IDbContextFactory<HatcheryDb> databases)
{
    /// <summary>Farther from every school than anybody drives with a class; most often a sign left out or the two numbers swapped (judgement).</summary>
    private const double FarKm = 500;

    public Task<Notice?> AddAsync(CurrentUser user, SiteForm form, Action<string, string> refuse, CancellationToken cancel) =>
        InTurn.SaveAsync(() => TryAddAsync(user, form, refuse, cancel), refuse);

    /// <summary>Null also when there is no such site; the page has found that before.</summary>
    public Task<Notice?> ChangeAsync(CurrentUser user, Guid siteId, SiteForm form, Action<string, string> refuse, CancellationToken cancel) =>
        InTurn.SaveAsync(() => TryChangeAsync(user, siteId, form, refuse, cancel), refuse);

    private async Task<Notice?> TryAddAsync(CurrentUser user, SiteForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (await db.ReleaseSites.AnyAsync(s => s.Id == form.Id, cancel))
        {
            return new Notice(true, "This site was added already.");
        }

        var site = new ReleaseSite { Id = form.Id, ProgrammeId = user.ProgrammeId, Name = "", Water = "" };
        if (!await ReadAsync(db, site, form, new TypedFields(refuse), cancel))
        {
            return null;
        }

        db.ReleaseSites.Add(site);
        await db.SaveChangesAsync(cancel);
        return new Notice(true, $"Added: {site.Name}, {site.Water}.");
    }

    private async Task<Notice?> TryChangeAsync(CurrentUser user, Guid siteId, SiteForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (await db.ReleaseSites.SingleOrDefaultAsync(s => s.Id == siteId && s.ProgrammeId == user.ProgrammeId, cancel) is not { } site)
        {
            return null;
        }

        var typed = new TypedFields(refuse);
        if (site.Version != form.Version)
        {
            typed.Refuse("", Changed(site.Name));
            return null;
        }

        var water = site.Water;
        if (await ReadAsync(db, site, form, typed, cancel) && !PermitRules.IsSameWater(water, site.Water)
            && await db.Releases.AnyAsync(r => r.SiteId == siteId && r.WithdrawnAt == null, cancel))
        {
            typed.Refuse(nameof(form.Water), $"Fish were let go here under permits for {water}, so the water stays. Add another site instead.");
        }

        if (!typed.AllGood)
        {
            return null;
        }

        await db.SaveChangesAsync(cancel);
        return new Notice(true, $"Kept: {site.Name}, {site.Water}.");
    }

    internal static string Changed(string what) => $"Somebody else changed {what} since you opened this page. Nothing was saved. Open the page again, look, and then change it.";

    private static async Task<bool> ReadAsync(HatcheryDb db, ReleaseSite site, SiteForm form, TypedFields typed, CancellationToken cancel)
    {
        site.Name = typed.Name(nameof(form.Name), form.Name, "Name the place, such as “Mill bridge landing”.");
        site.Water = typed.Name(nameof(form.Water), form.Water, "Name the water as the permit does.");
        site.Latitude = typed.Number(nameof(form.Latitude), form.Latitude, -90, 90, "43.7214");
        site.Longitude = typed.Number(nameof(form.Longitude), form.Longitude, -180, 180, "-113.7003");
        site.MostVisitors = AtLeastOne(nameof(form.MostVisitors), form.MostVisitors, 1);
        site.MostBuses = AtLeastOne(nameof(form.MostBuses), form.MostBuses, 0);
        site.Access = typed.Text(nameof(form.Access), form.Access);
        site.Hazards = typed.Text(nameof(form.Hazards), form.Hazards);
        if (typed.AllGood && site.Latitude is null != site.Longitude is null)
        {
            typed.Refuse(site.Latitude is null ? nameof(form.Latitude) : nameof(form.Longitude), "A position has two numbers. Type both or neither.");
        }

        await CheckPlaceAsync(db, site, typed, cancel);
        if (await db.ReleaseSites.AnyAsync(s => s.ProgrammeId == site.ProgrammeId && s.Name == site.Name && s.Id != site.Id, cancel))
        {
            typed.Refuse(nameof(form.Name), $"There is a site “{site.Name}” already. Choose another name.");
        }

        return typed.AllGood;

        int? AtLeastOne(string field, string? text, int least)
        {
            var count = typed.OptionalCount(field, text);
            if (count is { } number && (number < least || number > 10_000))
            {
                typed.Refuse(field, $"Type a number from {least} to 10,000, or leave it empty if nobody knows.");
            }

            return count;
        }
    }

    private static async Task CheckPlaceAsync(HatcheryDb db, ReleaseSite site, TypedFields typed, CancellationToken cancel)
    {
        if (!typed.AllGood || GeoPoint.Of(site.Latitude, site.Longitude) is not { } here)
        {
            return;
        }

        var schools = (await db.Schools.AsNoTracking().Where(s => s.ProgrammeId == site.ProgrammeId && s.Latitude != null).ToListAsync(cancel))
            .Select(s => GeoPoint.Of(s.Latitude, s.Longitude)).OfType<GeoPoint>().ToList();
        if (schools.Count > 0 && schools.Min(s => GreatCircle.Km(s, here)) is > FarKm and var far)
        {
            typed.Refuse(nameof(SiteForm.Latitude), string.Create(
                CultureInfo.InvariantCulture, $"This is {far:N0} km from the nearest school. Look at the signs (south and west are negative) and at the order, latitude first."));
        }
    }
}
