using Tankside.Hatchery.Places;

namespace Tankside.Portal.Places.Sheets;

/// <summary>What a sheet can say of a school beside its name.</summary>
internal static class SchoolFields
{
    private static readonly Dictionary<string, string> Disinfectants = new(StringComparer.Ordinal)
    {
        ["not known"] = "not known",
        ["unknown"] = "not known",
        ["none"] = "none",
        ["no"] = "none",
        ["well"] = "none",
        ["chlorine"] = "chlorine",
        ["cl2"] = "chlorine",
        ["chloramine"] = "chloramine",
        ["chloramines"] = "chloramine",
    };

    public static readonly SheetField Name = new("name", "school", ["school", "school name", "name", "building", "escuela"], "the school’s name, such as Heron Ford Elementary", Required: true);

    public static IReadOnlyList<ThingField<School>> All { get; } =
    [
        new(new("area", "area", ["area", "district", "zone", "zona"], "the part of the region that shares weather and power, such as north", Required: true), FieldReads.Text(60), s => s.Area, (s, v) => s.Area = v),
        new(new("opens", "opening time", ["open*", "starts", "start time", "first bell", "abre"], "a time of day, such as 8:00"), FieldReads.Clock, s => FieldReads.Of(s.OpensAt), (s, v) => s.OpensAt = FieldReads.TimeOf(v)),
        new(new("closes", "closing time", ["close*", "ends", "end time", "dismissal", "last bell", "cierra"], "a time of day, such as 15:15"), FieldReads.Clock, s => FieldReads.Of(s.ClosesAt), (s, v) => s.ClosesAt = FieldReads.TimeOf(v)),
        new(new("deliver-from", "deliveries from", ["deliveries from", "deliver from", "delivery from"], "a time of day from which a driver may come, such as 9:00"), FieldReads.Clock, s => FieldReads.Of(s.DeliverFrom), (s, v) => s.DeliverFrom = FieldReads.TimeOrNull(v)),
        new(new("deliver-by", "deliveries by", ["deliveries by", "deliver by", "delivery by", "deliveries until"], "a time of day by which a driver has to be gone, such as 14:30"), FieldReads.Clock, s => FieldReads.Of(s.DeliverBy), (s, v) => s.DeliverBy = FieldReads.TimeOrNull(v)),
        new(new("bells", "bell times", ["bell times", "bells", "breaks", "recess", "recreo"], "bells and breaks in at most 400 signs, such as lunch 11:40 to 12:20"), FieldReads.Text(400), s => s.BellTimes ?? "", (s, v) => s.BellTimes = FieldReads.OrNull(v)),
        new(new("door", "door and sign-in", ["door", "doors", "door and sign in", "sign in", "parking", "access"], "where to park, which door, who signs in, in at most 400 signs; never a child’s name"), FieldReads.Text(400), s => s.DoorNotes ?? "", (s, v) => s.DoorNotes = FieldReads.OrNull(v)),
        new(new("disinfectant", "disinfectant", ["disinfectant", "disinfection", "treatment", "chlorine", "desinfectante"], "chlorine, chloramine, none or not known"), FieldReads.OneOf(Disinfectants),
            s => Of(s.Disinfectant),
            (s, v) => s.Disinfectant = v switch { "none" => Disinfectant.None, "chlorine" => Disinfectant.Chlorine, "chloramine" => Disinfectant.Chloramine, _ => Disinfectant.Unknown }),
        new(new("water", "water supply", ["water supply", "supplier", "utility", "water source"], "who supplies the water, at most 200 signs"), FieldReads.Text(200), s => s.WaterSupply ?? "", (s, v) => s.WaterSupply = FieldReads.OrNull(v)),
        new(new("water-notes", "notes on the water", ["water notes", "notes on the water", "about the water"], "what else is known of the water, at most 400 signs"), FieldReads.Text(400), s => s.WaterNotes ?? "", (s, v) => s.WaterNotes = FieldReads.OrNull(v)),
        new(new("latitude", "latitude", ["latitude", "lat", "latitud"], "degrees north, such as 44.1"), FieldReads.Number(-90, 90), s => FieldReads.Of(s.Latitude), (s, v) => s.Latitude = FieldReads.NumberOf(v)),
        new(new("longitude", "longitude", ["longitude", "long", "lon", "lng", "longitud"], "degrees east, below nought in the west, such as -113.2"), FieldReads.Number(-180, 180), s => FieldReads.Of(s.Longitude), (s, v) => s.Longitude = FieldReads.NumberOf(v)),
        new(new("elevation", "elevation in metres", ["elevation", "elevation m", "altitude", "height", "altitud"], "metres above the sea, such as 1420"), FieldReads.Number(-450, 6000), s => FieldReads.Of(s.ElevationM), (s, v) => s.ElevationM = FieldReads.NumberOf(v) ?? 0),
        new(new("distance", "distance in km", ["distance", "distance km", "km", "distancia"], "kilometres from the coordinator, such as 12"), FieldReads.Number(0, 5000), s => FieldReads.Of(s.DistanceKm), (s, v) => s.DistanceKm = FieldReads.NumberOf(v) ?? 0),
    ];

    public static string Of(Disinfectant disinfectant) => disinfectant switch
    {
        Disinfectant.None => "none",
        Disinfectant.Unknown => "not known",
        Disinfectant.Chlorine => "chlorine",
        Disinfectant.Chloramine => "chloramine",
    };

    public static void Set<T>(T thing, IReadOnlyList<ThingField<T>> fields, IReadOnlyList<FieldChange> changes)
    {
        foreach (var change in changes)
        {
            fields.FirstOrDefault(f => f.Field.Key == change.Key)?.Set(thing, change.To);
        }
    }
}
