using System.Text.Json;
using Tankside.Hatchery.Places;
using Tankside.Portal.Shell.Sheets;
using Tankside.Storage;

namespace Tankside.Portal.Places.Sheets;

/// <summary>What becomes of a row. Every row that is not blank is exactly one of these.</summary>
public enum PlaceFate
{
    Added,
    Changed,
    Unchanged,
    Refused,
}

/// <summary>One thing that a row adds or changes.</summary>
/// <param name="Store">Puts it into the context, which somebody else saves.</param>
public sealed record PlannedThing(PlaceThing Thing, Guid Id, string Name, bool Added, IReadOnlyList<FieldChange> Fields, Action<HatcheryDb> Store)
{
    public PlaceImportLine Line(Guid import, int number, int row) => new()
    {
        ImportId = import,
        Number = number,
        Row = row,
        Thing = Thing,
        ThingId = Id,
        Name = Name.Length <= 300 ? Name : Name[..300],
        Added = Added,
        Fields = JsonSerializer.Serialize(Fields),
    };
}

/// <summary>One row and what becomes of it.</summary>
/// <param name="Name">What the row is about, as far as it says.</param>
/// <param name="Why">The reason, for a row that is refused; a word beside it for the others.</param>
public sealed record PlannedRow(SheetRow Row, PlaceFate Fate, string Name, string Why, IReadOnlyList<PlannedThing> Things)
{
    public static PlannedRow Refused(SheetRow row, string name, IEnumerable<string> why) => new(row, PlaceFate.Refused, name, string.Join(" ", why), []);

    /// <summary>A row whose things were looked at: refused when something is unclear, else new, changed or as it is.</summary>
    public static PlannedRow Of(PlaceCells cells, string name, IEnumerable<PlannedThing?> things, string note = "")
    {
        if (cells.Why.Count > 0)
        {
            return Refused(cells.Row, name, cells.Why);
        }

        var some = things.OfType<PlannedThing>().Where(t => t.Added || t.Fields.Count > 0).ToList();
        return new PlannedRow(
            cells.Row,
            some.Count == 0 ? PlaceFate.Unchanged : some.Exists(t => t.Added) ? PlaceFate.Added : PlaceFate.Changed,
            name, note, some);
    }
}

/// <summary>Who asks, when, and how dates are to be read.</summary>
public sealed record PlaceAsk(Accounts.CurrentUser User, DateTime Now, DateOrder Order);

/// <summary>
/// One kind of sheet: its columns, what its rows would do to what is there, and how that is taken back. Each word keeps the sheets of its own
/// things.
/// </summary>
public interface IPlaceSheet
{
    PlaceSheet Holds { get; }

    IReadOnlyList<SheetField> Fields { get; }

    /// <summary>Those without whose columns no row says which thing it is about.</summary>
    IReadOnlyList<SheetField> Keys { get; }

    /// <summary>One made-up row in the order of the fields.</summary>
    IReadOnlyList<string> Example { get; }

    /// <summary>Looks at all rows against what is there now, with a handful of queries however many rows there are.</summary>
    Task<IReadOnlyList<PlannedRow>> PlanAsync(HatcheryDb db, PlaceAsk ask, IReadOnlyList<PlaceCells> rows, CancellationToken cancel);

    /// <summary>Takes lines back in the caller's transaction; says in <see cref="PlaceImportLine.Stayed"/> what stays and why.</summary>
    Task TakeBackAsync(HatcheryDb db, PlaceAsk ask, IReadOnlyList<PlaceImportLine> lines, CancellationToken cancel);
}
