using System.Globalization;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Portal.Shell.Sheets;
using Tankside.Science.Heat;
using Tankside.Science.Units;

namespace Tankside.Portal.Places.Sheets;

/// <summary>What a sheet can say of a room and of its tank.</summary>
internal static class RoomFields
{
    private static readonly Dictionary<string, string> Jackets = new(StringComparer.Ordinal)
    {
        ["none"] = "none",
        ["no"] = "none",
        ["bare"] = "none",
        ["foam"] = "foam",
        ["yes"] = "foam",
    };

    private static readonly Dictionary<string, string> Scales = new(StringComparer.Ordinal) { ["f"] = "°F", ["fahrenheit"] = "°F", ["c"] = "°C", ["celsius"] = "°C" };

    public static readonly SheetField School = new("school", "school", ["school", "building", "escuela"], "the name of a school of your programme", Required: true),
        Room = new("room", "room", ["room", "room name", "room number", "classroom", "aula", "salon"], "the room, such as Room 3; no child’s and no class’s list of names", Required: true),
        Code = new("code", "tank code", ["tank", "tank code", "code", "label", "tanque"], "the code on the tank’s label, such as A007");

    public static IReadOnlyList<ThingField<Classroom>> OfRoom { get; } =
    [
        new(new("new-teacher", "first season for the teacher", ["new teacher", "first season", "first year"], "yes or no"), FieldReads.YesNo, r => FieldReads.Of(r.NewTeacher), (r, v) => r.NewTeacher = v == "yes"),
    ];

    public static IReadOnlyList<ThingField<Tank>> OfTank { get; } =
    [
        new(new("litres", "litres of water", ["litres", "liters", "volume", "litros"], "litres of water in the tank, such as 208", Required: true), FieldReads.Number(1, 5000), t => FieldReads.Of(t.Litres), (t, v) => t.Litres = FieldReads.NumberOf(v) ?? 0),
        new(new("set-point", "set-point in °C", ["set point", "setpoint", "chiller set*"], "what the chiller aims for: 10.5, or 51 °F", Required: true), cell => Temperature(cell, 0, 22), t => FieldReads.Of(Math.Round(t.SetPointC, 2)), (t, v) => t.SetPointC = FieldReads.NumberOf(v) ?? 0),
        new(new("jacket", "jacket", ["jacket", "foam", "insulation"], "foam or none"), FieldReads.OneOf(Jackets), t => t.Jacket == Jacket.Foam ? "foam" : "none", (t, v) => t.Jacket = v == "foam" ? Jacket.Foam : Jacket.None),
        new(new("scale", "thermometer’s scale", ["scale", "thermometer", "unit", "units", "escala"], "°F or °C"), FieldReads.OneOf(Scales), t => t.UsualUnit == TemperatureUnit.C ? "°C" : "°F", (t, v) => t.UsualUnit = v == "°C" ? TemperatureUnit.C : TemperatureUnit.F),
        new(new("room-c", "usual room temperature in °C", ["room temperature", "room temp", "usual room"], "what the room usually is: 21, or 70 °F"), cell => Temperature(cell, 0, 40), t => FieldReads.Of(Math.Round(t.RoomC, 2)), (t, v) => t.RoomC = FieldReads.NumberOf(v) ?? 21),
        new(new("chiller-batch", "chiller’s make and batch", ["chiller batch", "chiller make", "chiller"], "make and batch of the chiller, at most 80 signs"), FieldReads.Text(80), t => t.ChillerBatch ?? "", (t, v) => t.ChillerBatch = FieldReads.OrNull(v)),
        new(new("test-kit", "test kit’s batch", ["test kit batch", "test kit", "water test"], "batch of the water test kit, at most 80 signs"), FieldReads.Text(80), t => t.TestKitBatch ?? "", (t, v) => t.TestKitBatch = FieldReads.OrNull(v)),
    ];

    /// <summary>As a person of the programme writes it, and as it is read again.</summary>
    public static string Words(double celsius, TemperatureUnit unit) => unit == TemperatureUnit.C
        ? $"{FieldReads.Of(Math.Round(celsius, 2))} °C"
        : $"{FieldReads.Of(Math.Round(new Celsius(celsius).Fahrenheit, 1))} °F";

    /// <summary>The scale beside the number wins; without one nobody sets a chiller to 25 °C, nor keeps a room at 25 °F.</summary>
    private static string? Temperature(string cell, double least, double most)
    {
        var words = Headings.Plain(cell);
        var scale = words.EndsWith('f') ? TemperatureUnit.F : words.EndsWith('c') ? TemperatureUnit.C : default(TemperatureUnit?);
        var number = CellWords.Number(cell.TrimEnd('F', 'f', 'C', 'c', ' ', '°'));
        var celsius = (number, scale) switch
        {
            ({ } f, TemperatureUnit.F) => Celsius.FromFahrenheit(f).Degrees,
            ({ } f, null) when f >= 32 && f > most => Celsius.FromFahrenheit(f).Degrees,
            ({ } c, _) => c,
            _ => double.NaN,
        };
        return celsius >= least && celsius <= most ? Math.Round(celsius, 2).ToString("0.##", CultureInfo.InvariantCulture) : null;
    }
}
