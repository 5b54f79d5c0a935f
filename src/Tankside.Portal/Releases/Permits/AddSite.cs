using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Accounts;
using Tankside.Storage;

namespace Tankside.Portal.Releases.Permits;

public sealed class SiteForm
{
    public Guid Id { get; set; }

    public string? Name { get; set; }

    public string? Water { get; set; }
}

/// <summary>Adds a place where fish may be let go.</summary>
public sealed class AddSite(IDbContextFactory<HatcheryDb> databases)
{
    public Task<Notice?> HandleAsync(CurrentUser user, SiteForm form, Action<string, string> refuse, CancellationToken cancel) =>
        InTurn.SaveAsync(() => TryAsync(user, form, refuse, cancel), refuse);

    private async Task<Notice?> TryAsync(CurrentUser user, SiteForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        var typed = new TypedFields(refuse);
        var name = typed.Name(nameof(form.Name), form.Name, "Name the place, such as “Mill bridge landing”.");
        var water = typed.Name(nameof(form.Water), form.Water, "Name the water as the permit does.");
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (await db.ReleaseSites.AnyAsync(s => s.Id == form.Id, cancel))
        {
            return new Notice(true, "This site was added already.");
        }

        if (await db.ReleaseSites.AnyAsync(s => s.ProgrammeId == user.ProgrammeId && s.Name == name, cancel))
        {
            typed.Refuse(nameof(form.Name), $"There is a site “{name}” already. Choose another name.");
        }

        if (!typed.AllGood)
        {
            return null;
        }

        db.ReleaseSites.Add(new ReleaseSite { Id = form.Id, ProgrammeId = user.ProgrammeId, Name = name, Water = water });
        await db.SaveChangesAsync(cancel);
        return new Notice(true, $"Added: {name}, {water}.");
    }
}
