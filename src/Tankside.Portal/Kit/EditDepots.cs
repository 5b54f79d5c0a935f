using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Kit;
using Tankside.Hatchery.Places;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Kit;

public sealed class DepotForm
{
    /// <summary>Made when the page is shown, so that the form sent twice is one depot.</summary>
    public Guid Id { get; set; }

    public string? Name { get; set; }

    public string? School { get; set; }

    /// <summary>A person of the programme who has the key.</summary>
    public string? HolderId { get; set; }

    public string? Holder { get; set; }

    public string? Phone { get; set; }

    public string? Hours { get; set; }

    public string? Latitude { get; set; }

    public string? Longitude { get; set; }

    /// <summary>The depot's version when it was opened to be changed; empty for a new one.</summary>
    public int? Version { get; set; }

    public static DepotForm Of(KitDepot depot) => new()
    {
        Id = depot.Id,
        Name = depot.Name,
        School = depot.SchoolId?.ToString(),
        HolderId = depot.HolderId?.ToString(),
        Holder = depot.Holder,
        Phone = depot.Phone,
        Hours = depot.Hours,
        Latitude = KitWords.Plain(depot.Latitude),
        Longitude = KitWords.Plain(depot.Longitude),
        Version = depot.Version,
    };
}

/// <summary>A depot with how much lies there.</summary>
public sealed record DepotRow(ListedDepot Depot, int Pieces, int Ready);

/// <summary>What the page of the depots shows and offers.</summary>
public sealed record DepotsAtHand(IReadOnlyList<DepotRow> Depots, IReadOnlyList<School> Schools, IReadOnlyList<(Guid Id, string Name)> People);

/// <summary>Adds depots, changes and closes them.</summary>
public sealed class EditDepots(IDbContextFactory<HatcheryDb> databases, TimeProvider time, Say say)
{
    public async Task<DepotsAtHand> LoadAsync(CurrentUser user, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var names = await KitNames.LoadAsync(db, user.ProgrammeId, cancel);
        var kit = (await db.KitItems.AsNoTracking().Where(k => k.ProgrammeId == user.ProgrammeId && k.DepotId != null).ToListAsync(cancel)).ToLookup(k => k.DepotId!.Value);
        var schools = await db.Schools.AsNoTracking().Where(s => s.ProgrammeId == user.ProgrammeId).OrderBy(s => s.Name).ToListAsync(cancel);
        return new DepotsAtHand(
            [.. names.Depots.Values.Where(d => d.Depot.ClosedAt is null).OrderBy(d => d.Depot.Name, StringComparer.Ordinal)
                .Select(d => new DepotRow(d, kit[d.Depot.Id].Count(), kit[d.Depot.Id].Count(k => k.IsSpare)))],
            schools, names.Carriers);
    }

    /// <summary>Adds the depot, or changes it where the form carries the version that was looked at.</summary>
    public Task<Notice?> KeepAsync(CurrentUser user, DepotForm form, Action<string, string> refuse, CancellationToken cancel) =>
        InTurn.SaveAsync(() => TryKeepAsync(user, form, refuse, cancel), refuse);

    private async Task<Notice?> TryKeepAsync(CurrentUser user, DepotForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var depot = await db.KitDepots.SingleOrDefaultAsync(d => d.Id == form.Id && d.ProgrammeId == user.ProgrammeId, cancel);
        if (depot is not null && form.Version is null)
        {
            return new Notice(true, "This depot was added already.");
        }

        if (form.Version is not null && depot is not { ClosedAt: null })
        {
            return new Notice(false, "This depot is closed, or not in your programme. Nothing was changed.");
        }

        if (depot is not null && depot.Version != form.Version)
        {
            form.Version = depot.Version;
            refuse("", say.Of("Somebody changed {0} meanwhile. Nothing of yours was saved; what you typed is kept. Look at the list, and send it again if it still holds.", depot.Name));
            return null;
        }

        var typed = new TypedFields(refuse, say);
        var names = await KitNames.LoadAsync(db, user.ProgrammeId, cancel);
        var name = typed.Name(nameof(form.Name), form.Name, "Name it as you would tell a driver, such as “Old Mill, stock room”.");
        if (names.Depots.Values.Any(d => d.Depot.ClosedAt is null && d.Depot.Id != form.Id && string.Equals(d.Depot.Name, name, StringComparison.OrdinalIgnoreCase)))
        {
            typed.Refuse(nameof(form.Name), say.Of("There is a depot “{0}” already. Choose another name.", name));
        }

        var school = Chosen(nameof(form.School), form.School, "Choose a school of your programme, or none.");
        if (school is { } id && !await db.Schools.AnyAsync(s => s.Id == id && s.ProgrammeId == user.ProgrammeId, cancel))
        {
            typed.Refuse(nameof(form.School), "Choose a school of your programme, or none.");
        }

        var holder = Chosen(nameof(form.HolderId), form.HolderId, "Choose somebody of your programme, or nobody.");
        if (holder is not null && names.Carriers.All(p => p.Id != holder))
        {
            typed.Refuse(nameof(form.HolderId), "Choose somebody of your programme, or nobody.");
        }

        var (latitude, longitude) = (typed.Number(nameof(form.Latitude), form.Latitude, -90, 90, "43.6512"), typed.Number(nameof(form.Longitude), form.Longitude, -180, 180, "-113.9087"));
        if (latitude is null != longitude is null && typed.AllGood)
        {
            typed.Refuse(latitude is null ? nameof(form.Latitude) : nameof(form.Longitude), "A position has both numbers. Give both, or neither.");
        }

        var (named, phone, hours) = (typed.Text(nameof(form.Holder), form.Holder), typed.Text(nameof(form.Phone), form.Phone), typed.Text(nameof(form.Hours), form.Hours));
        if (!typed.AllGood)
        {
            return null;
        }

        var isNew = depot is null;
        if (depot is null)
        {
            depot = new KitDepot
            {
                Id = form.Id == Guid.Empty ? Guid.NewGuid() : form.Id,
                ProgrammeId = user.ProgrammeId,
                Name = name,
            };
            db.KitDepots.Add(depot);
        }

        (depot.Name, depot.SchoolId, depot.HolderId, depot.Holder) = (name, school, holder, named);
        (depot.Phone, depot.Hours, depot.Latitude, depot.Longitude) = (phone, hours, latitude, longitude);
        await db.SaveChangesAsync(cancel);
        return new Notice(true, isNew ? say.Of("Added: {0}.", name) : say.Of("Changed: {0}.", name));

        Guid? Chosen(string field, string? text, string why) => string.IsNullOrEmpty(text) ? null : typed.Choice(field, text, why);
    }

    /// <summary>Only an empty depot is closed; its name stays in the histories.</summary>
    public async Task<Notice> CloseAsync(CurrentUser user, Guid depotId, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (await db.KitDepots.SingleOrDefaultAsync(d => d.Id == depotId && d.ProgrammeId == user.ProgrammeId && d.ClosedAt == null, cancel) is not { } depot)
        {
            return new Notice(true, "This depot is closed already.");
        }

        var left = await db.KitItems.CountAsync(k => k.DepotId == depotId, cancel);
        if (left > 0)
        {
            return new Notice(false, say.Count(left, "{0} piece lies at {1} still. Move them first; nothing was changed.", "{0} pieces lie at {1} still. Move them first; nothing was changed.", depot.Name));
        }

        depot.ClosedAt = Instants.ToMillisecond(time.GetUtcNow().UtcDateTime);
        try
        {
            await db.SaveChangesAsync(cancel);
        }
        catch (DbUpdateConcurrencyException)
        {
            return new Notice(false, "Somebody else changed this depot at the same moment. Nothing of yours was saved; look again.");
        }

        return new Notice(true, say.Of("Closed: {0}. Its name stays in the histories.", depot.Name));
    }
}
