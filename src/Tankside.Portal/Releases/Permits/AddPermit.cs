using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Accounts;
using Tankside.Science.Eggs;
using Tankside.Storage;

namespace Tankside.Portal.Releases.Permits;

public sealed class PermitForm
{
    public Guid Id { get; set; }

    public string? Number { get; set; }

    public string? Species { get; set; }

    public string? Water { get; set; }

    public string? Fish { get; set; }

    public string? From { get; set; }

    public string? To { get; set; }
}

/// <summary>Adds a permit as the agency's paper words it.</summary>
public sealed class AddPermit(IDbContextFactory<HatcheryDb> databases)
{
    public Task<Notice?> HandleAsync(CurrentUser user, PermitForm form, Action<string, string> refuse, CancellationToken cancel) =>
        InTurn.SaveAsync(() => TryAsync(user, form, refuse, cancel), refuse);

    private async Task<Notice?> TryAsync(CurrentUser user, PermitForm form, Action<string, string> refuse, CancellationToken cancel)
    {
        var typed = new TypedFields(refuse);
        var permit = Read(user, form, typed);
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (await db.Permits.AnyAsync(p => p.Id == form.Id, cancel))
        {
            return new Notice(true, "This permit was added already.");
        }

        if (await db.Permits.AnyAsync(p => p.ProgrammeId == user.ProgrammeId && p.Number == permit.Number, cancel))
        {
            typed.Refuse(nameof(form.Number), $"Permit “{permit.Number}” is in the list already.");
        }

        if (!typed.AllGood)
        {
            return null;
        }

        db.Permits.Add(permit);
        await db.SaveChangesAsync(cancel);
        return new Notice(true, $"Added: permit {permit.Number}, {Figures.Of(permit.Fish)} {SpeciesCodes.CommonName(permit.Species)} into {permit.Water}.");
    }

    private static Permit Read(CurrentUser user, PermitForm form, TypedFields typed)
    {
        var permit = new Permit
        {
            Id = form.Id,
            ProgrammeId = user.ProgrammeId,
            Number = typed.Name(nameof(form.Number), form.Number, "Type the number or name on the paper."),
            Species = typed.Choice<Species>(nameof(form.Species), form.Species, "Choose the species on the paper."),
            Water = typed.Name(nameof(form.Water), form.Water, "Name the water as the paper does."),
            Fish = typed.Count(nameof(form.Fish), form.Fish, "Type how many fish it allows."),
            From = typed.Day(nameof(form.From), form.From),
            To = typed.Day(nameof(form.To), form.To),
        };
        if (typed.AllGood && permit.Fish is <= 0 or > 10_000_000)
        {
            typed.Refuse(nameof(form.Fish), "Type how many fish it allows, 1 or more.");
        }

        if (typed.AllGood && permit.To < permit.From)
        {
            typed.Refuse(nameof(form.To), "The last day is before the first.");
        }

        return permit;
    }
}
