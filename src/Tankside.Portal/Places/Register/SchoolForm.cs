using Tankside.Hatchery.Places;
using Tankside.Portal.Places.Sheets;

namespace Tankside.Portal.Places.Register;

/// <summary>A school as it is typed. Its fields are read as the sheets' cells are, so that page and sheet understand the same.</summary>
public sealed class SchoolForm
{
    /// <summary>Made when the page is shown, so that the form sent twice is one school.</summary>
    public Guid Id { get; set; }

    /// <summary>The school as the person saw it.</summary>
    public int Version { get; set; }

    public string? Name { get; set; }

    public string? Area { get; set; }

    public string? OpensAt { get; set; } = "08:00";

    public string? ClosesAt { get; set; } = "15:15";

    public string? DeliverFrom { get; set; }

    public string? DeliverBy { get; set; }

    public string? BellTimes { get; set; }

    public string? DoorNotes { get; set; }

    public string? Disinfectant { get; set; }

    public string? WaterSupply { get; set; }

    public string? WaterNotes { get; set; }

    public string? Latitude { get; set; }

    public string? Longitude { get; set; }

    public string? ElevationM { get; set; }

    public string? DistanceKm { get; set; }

    /// <summary>By the key of the sheet's field: the name here, what was typed, and whether it may be left out.</summary>
    internal IReadOnlyDictionary<string, TypedCell> Cells => new Dictionary<string, TypedCell>
    {
        ["area"] = new(nameof(Area), Area, true),
        ["opens"] = new(nameof(OpensAt), OpensAt, true),
        ["closes"] = new(nameof(ClosesAt), ClosesAt, true),
        ["deliver-from"] = new(nameof(DeliverFrom), DeliverFrom),
        ["deliver-by"] = new(nameof(DeliverBy), DeliverBy),
        ["bells"] = new(nameof(BellTimes), BellTimes),
        ["door"] = new(nameof(DoorNotes), DoorNotes),
        ["disinfectant"] = new(nameof(Disinfectant), Disinfectant, true),
        ["water"] = new(nameof(WaterSupply), WaterSupply),
        ["water-notes"] = new(nameof(WaterNotes), WaterNotes),
        ["latitude"] = new(nameof(Latitude), Latitude),
        ["longitude"] = new(nameof(Longitude), Longitude),
        ["elevation"] = new(nameof(ElevationM), ElevationM),
        ["distance"] = new(nameof(DistanceKm), DistanceKm),
    };

    public static SchoolForm Of(School school) => new()
    {
        Id = school.Id,
        Version = school.Version,
        Name = school.Name,
        Area = school.Area,
        OpensAt = FieldReads.Of(school.OpensAt),
        ClosesAt = FieldReads.Of(school.ClosesAt),
        DeliverFrom = FieldReads.Of(school.DeliverFrom),
        DeliverBy = FieldReads.Of(school.DeliverBy),
        BellTimes = school.BellTimes,
        DoorNotes = school.DoorNotes,
        Disinfectant = SchoolFields.Of(school.Disinfectant),
        WaterSupply = school.WaterSupply,
        WaterNotes = school.WaterNotes,
        Latitude = FieldReads.Of(school.Latitude),
        Longitude = FieldReads.Of(school.Longitude),
        ElevationM = FieldReads.Of(school.ElevationM),
        DistanceKm = FieldReads.Of(school.DistanceKm),
    };
}

/// <summary>What was typed for a field of a sheet.</summary>
internal readonly record struct TypedCell(string Name, string? Typed, bool Needed = false);

/// <summary>Typed fields read as cells of a sheet are.</summary>
internal static class TypedCells
{
    public static void ReadInto<T>(this TypedFieldsOf<T> from, T thing, Accounts.TypedFields typed)
        where T : class
    {
        foreach (var field in from.Fields)
        {
            if (!from.Cells.TryGetValue(field.Field.Key, out var cell))
            {
                continue;
            }

            var text = cell.Typed?.Trim() ?? "";
            if (text.Length == 0 && cell.Needed)
            {
                typed.Refuse(cell.Name, $"Expected: {field.Field.Expected}.");
            }
            else if ((text.Length == 0 ? "" : field.Read(text)) is { } value)
            {
                field.Set(thing, value);
            }
            else
            {
                typed.Refuse(cell.Name, $"“{Shell.Sheets.SheetTexts.Shortened(text)}” is no {field.Field.Word}. Expected: {field.Field.Expected}.");
            }
        }
    }

    /// <summary>Where two states of a thing differ, for whoever typed against another's save.</summary>
    public static string Differences<T>(IReadOnlyList<ThingField<T>> fields, T theirs, T mine) =>
        string.Join("; ", fields.Where(f => f.Get(theirs) != f.Get(mine)).Select(f => $"{f.Field.Word} “{f.Get(theirs)}”"));
}

internal readonly record struct TypedFieldsOf<T>(IReadOnlyList<ThingField<T>> Fields, IReadOnlyDictionary<string, TypedCell> Cells);
