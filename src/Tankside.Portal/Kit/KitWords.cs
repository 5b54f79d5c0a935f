using System.Globalization;
using Tankside.Hatchery.Kit;
using Tankside.Portal.Shell;

namespace Tankside.Portal.Kit;

/// <summary>Kit in words.</summary>
public static class KitWords
{
    public static string Of(KitKind kind) => kind switch
    {
        KitKind.Chiller => "chiller",
        KitKind.Pump => "pump",
        KitKind.AirPump => "air pump",
        KitKind.BatteryAir => "battery air pump",
        KitKind.Filter => "filter",
        KitKind.Thermometer => "thermometer",
        KitKind.Tank => "tank",
        KitKind.Logger => "logger",
    };

    public static string Many(KitKind kind) => kind switch
    {
        KitKind.Chiller => "chillers",
        KitKind.Pump => "pumps",
        KitKind.AirPump => "air pumps",
        KitKind.BatteryAir => "battery air pumps",
        KitKind.Filter => "filters",
        KitKind.Thermometer => "thermometers",
        KitKind.Tank => "tanks",
        KitKind.Logger => "loggers",
    };

    public static string Of(KitCondition condition) => condition switch
    {
        KitCondition.Working => "working",
        KitCondition.Faulty => "faulty",
        KitCondition.InRepair => "in repair",
        KitCondition.Retired => "retired",
    };

    public static string Of(KitPlace place) => place switch
    {
        KitPlace.Unknown => "place not known",
        KitPlace.Tank => "in a tank",
        KitPlace.Depot => "at a depot",
        KitPlace.Person => "on the road",
        KitPlace.Repair => "in repair",
        KitPlace.Retired => "retired",
    };

    /// <summary>What was done, for the history.</summary>
    public static string Done(KitActKind kind) => kind switch
    {
        KitActKind.Registered => "entered in the register",
        KitActKind.Out => "lent out",
        KitActKind.In => "came back",
        KitActKind.Swapped => "swapped",
        KitActKind.Taken => "taken along",
        KitActKind.Fault => "fault reported",
        KitActKind.RepairSent => "sent to repair",
        KitActKind.Repaired => "repaired",
        KitActKind.WarrantyClaimed => "warranty claimed",
        KitActKind.Cleaned => "cleaned",
        KitActKind.Stored => "stored",
        KitActKind.LoanSigned => "loan signed by the school",
        KitActKind.Retired => "retired",
        KitActKind.Noted => "note",
        KitActKind.Corrected => "corrected in the register",
    };

    /// <summary>What to do, for a choice.</summary>
    public static string ToDo(KitActKind kind) => kind switch
    {
        KitActKind.Out => "Lend it out to a tank",
        KitActKind.In => "It came back to a depot",
        KitActKind.Taken => "Somebody takes it along",
        KitActKind.Fault => "It is faulty",
        KitActKind.RepairSent => "It goes to repair",
        KitActKind.Repaired => "It is repaired and works",
        KitActKind.WarrantyClaimed => "A warranty claim was made",
        KitActKind.Cleaned => "It was cleaned",
        KitActKind.Stored => "It is put away at a depot",
        KitActKind.LoanSigned => "The school signed the loan agreement",
        KitActKind.Retired => "It is retired for good",
        KitActKind.Noted => "Add a note",
        KitActKind.Registered or KitActKind.Swapped or KitActKind.Corrected => Done(kind),
    };

    public static string WhyNot(KitRefusal why) => why switch
    {
        KitRefusal.IsRetired => "It is retired; only a note can be added.",
        KitRefusal.DoesNotWork => "It does not work, so it cannot be lent out. Enter the repair first.",
        KitRefusal.AlreadyFaulty => "It is reported faulty already. Add a note if there is more to tell.",
        KitRefusal.IsInRepair => "It is in repair. Enter first that it is repaired.",
        KitRefusal.NotInRepair => "It works already; there is nothing to repair.",
        KitRefusal.InATankAlready => "It stands in a tank. Enter first that it came back.",
        KitRefusal.InNoTank => "It stands in no tank now. Look at its place again.",
        KitRefusal.PromisedElsewhere => "It is promised to another tank. Give that promise back in the morning round first, or choose another piece.",
        KitRefusal.TooSmall => "It is too small for this tank.",
        KitRefusal.OtherKind => "It is another kind of kit; swap like for like.",
        KitRefusal.TheSamePiece => "That is the same piece.",
        KitRefusal.NothingToClean => "It was cleaned already.",
    };

    public static string Count(int count, string one, string many) =>
        $"{count.ToString("#,0", CultureInfo.InvariantCulture)} {(count == 1 ? one : many)}";

    public static string Capital(string text) => text.Length == 0 ? text : char.ToUpperInvariant(text[0]) + text[1..];

    public static string Day(DateOnly day, Say? say = null) => day.ToString("d MMM yyyy", say is { IsSpanish: true } ? say.Culture : CultureInfo.InvariantCulture);

    public static string Figure(double value, string format = "0.#") => value.ToString(format, CultureInfo.InvariantCulture);

    /// <summary>As it is typed into a field; empty for none.</summary>
    public static string? Plain(double? value) => value?.ToString(CultureInfo.InvariantCulture);

    /// <summary>The address of a piece's own page.</summary>
    public static string Address(string serial) => "/kit/" + Uri.EscapeDataString(serial);
}
