using Tankside.Hatchery.Places;

namespace Tankside.Portal.Places.Sheets;

/// <summary>Sheets of places in words.</summary>
public static class PlaceWords
{
    public static string Of(PlaceSheet holds) => holds switch
    {
        PlaceSheet.Schools => "schools",
        PlaceSheet.Rooms => "rooms and tanks",
        PlaceSheet.People => "people",
        PlaceSheet.Kit => "kit",
        PlaceSheet.Closures => "closures",
    };

    public static string Of(PlaceFate fate) => fate switch
    {
        PlaceFate.Added => "new",
        PlaceFate.Changed => "changes",
        PlaceFate.Unchanged => "unchanged",
        PlaceFate.Refused => "refused",
    };

    public static string Of(PlaceImportState state) => state switch
    {
        PlaceImportState.Previewed => "looked at, nothing stored",
        PlaceImportState.Done => "stored",
        PlaceImportState.Undone => "taken back",
    };

    public static string Of(PlaceThing thing) => thing switch
    {
        PlaceThing.School => "school",
        PlaceThing.Room => "room",
        PlaceThing.Tank => "tank",
        PlaceThing.Invitation => "invitation",
        PlaceThing.Kit => "kit",
        PlaceThing.Closure => "closure",
    };

    /// <summary>For a row that is not as it was shown.</summary>
    public static string Now(PlannedRow row) => row.Fate switch
    {
        PlaceFate.Added => $"is new{Told(row)}",
        PlaceFate.Changed => $"changes{Told(row)}",
        PlaceFate.Unchanged => "is there already, as the sheet says",
        PlaceFate.Refused => $"is refused: {row.Why.TrimEnd('.')}",
    };

    /// <summary>"area from “north” to “south”", or of something new "area “north”".</summary>
    public static string Of(FieldChange change, bool added) => added || change.From.Length == 0
        ? $"{change.Word} “{change.To}”"
        : $"{change.Word} from “{change.From}” to “{change.To}”";

    private static string Told(PlannedRow row) => row.Things.SelectMany(t => t.Fields.Select(f => Of(f, t.Added))).ToList() is { Count: > 0 } fields ? $": {string.Join(", ", fields)}" : "";
}
