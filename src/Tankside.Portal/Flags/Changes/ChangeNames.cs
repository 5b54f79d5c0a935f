using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings.SetPoints;
using Tankside.Storage;

namespace Tankside.Portal.Flags.Changes;

/// <summary>The names behind the ids that changes hold, as they are today: of people, tanks, schools, rooms, lots, runs and depots.</summary>
public sealed class ChangeNames
{
    private readonly Dictionary<Guid, string> names = [];

    private ChangeNames()
    {
    }

    public static async Task<ChangeNames> LoadAsync(HatcheryDb db, IReadOnlyCollection<Change> changes, CancellationToken cancel)
    {
        var ids = changes.SelectMany(c => c.Read().SelectMany(f => Ids(f.Before).Concat(Ids(f.After))).Concat(new[] { c.By, c.About }.OfType<Guid>()))
            .Distinct().ToList();
        var found = new ChangeNames();
        if (ids.Count == 0)
        {
            return found;
        }

        found.Add(await db.Users.Where(p => ids.Contains(p.Id)).ToDictionaryAsync(p => p.Id, p => p.Name, cancel));
        found.Add(await db.Tanks.Where(t => ids.Contains(t.Id)).ToDictionaryAsync(t => t.Id, t => t.Code, cancel));
        found.Add(await db.Schools.Where(s => ids.Contains(s.Id)).ToDictionaryAsync(s => s.Id, s => s.Name, cancel));
        found.Add(await db.Classrooms.Where(r => ids.Contains(r.Id)).ToDictionaryAsync(r => r.Id, r => r.Name, cancel));
        found.Add(await db.EggLots.Where(l => ids.Contains(l.Id)).ToDictionaryAsync(l => l.Id, l => l.Code, cancel));
        found.Add(await db.DeliveryRuns.Where(r => ids.Contains(r.Id)).ToDictionaryAsync(r => r.Id, r => r.Name, cancel));
        found.Add(await db.RunPlaces.Where(p => ids.Contains(p.Id)).ToDictionaryAsync(p => p.Id, p => p.Name, cancel));
        found.Add(await db.Seasons.Where(s => ids.Contains(s.Id)).ToDictionaryAsync(s => s.Id, s => s.Name, cancel));
        found.Add(await db.KitDepots.Where(d => ids.Contains(d.Id)).ToDictionaryAsync(d => d.Id, d => d.Name, cancel));
        return found;
    }

    public string Person(Guid id) => names.GetValueOrDefault(id, "somebody who is gone");

    /// <summary>A thing without a name of its own is called by the tank it belongs to.</summary>
    public string Of(Change change) => change.What is nameof(RoomCode) or nameof(SetPointPlan) or "Allotment" or "RunStop"
        && change.Read().FirstOrDefault(f => f.Field == "TankId") is { } tank
            ? Value(tank.After ?? tank.Before)
            : ChangeWords.Name(change);

    public string Sentence(ChangedField field)
    {
        var name = ChangeWords.Field(field.Field);
        return field.Withheld ? $"{name} changed"
            : field.Before is null ? $"{name}: {Value(field.After)}"
            : field.After is null ? $"{name}: no longer {Value(field.Before)}"
            : $"{name}: {Value(field.Before)} → {Value(field.After)}";
    }

    private string Value(string? text) => text switch
    {
        null => "none",
        "" => "empty",
        "True" => "yes",
        "False" => "no",
        _ => Guid.TryParse(text, out var id) && names.TryGetValue(id, out var name) ? name : text,
    };

    private void Add(Dictionary<Guid, string> more)
    {
        foreach (var (id, name) in more)
        {
            names[id] = name;
        }
    }

    private static IEnumerable<Guid> Ids(string? value) => Guid.TryParse(value, out var id) ? [id] : [];
}
