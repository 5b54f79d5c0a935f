using Tankside.Hatchery.Flags;

namespace Tankside.Portal.Flags;

/// <summary>Short words for kinds, urgencies, deeds and outcomes on adults' screens.</summary>
public static class FlagWords
{
    public static string Of(FlagKind kind) => kind switch
    {
        FlagKind.Warm => "warm water",
        FlagKind.Cold => "cold water",
        FlagKind.IcedCoil => "iced coil",
        FlagKind.WarmingFast => "warming fast",
        FlagKind.ChillerFault => "chiller",
        FlagKind.PumpFault => "pump or air",
        FlagKind.LowOxygen => "low oxygen",
        FlagKind.PhSag => "pH sag",
        FlagKind.DieOff => "die-off",
        FlagKind.LateHatch => "late hatch",
        FlagKind.EarlyHatch => "early hatch",
        FlagKind.FeedingNearBreak => "first feeding near a break",
        FlagKind.StuckThermometer => "stuck thermometer",
        FlagKind.NotReady => "not ready for eggs",
        FlagKind.ReportLate => "late report",
        FlagKind.SharedCause => "shared cause",
        _ => FlagNames.NameOf(kind),
    };

    public static string Of(Urgency urgency) => urgency switch
    {
        Urgency.ActNow => "act now",
        Urgency.Today => "today",
        Urgency.ThisWeek => "this week",
    };

    public static string Of(Outcome outcome) => outcome switch
    {
        Outcome.FixedByPhone => "Put right by phone",
        Outcome.SpareSent => "Spare sent",
        Outcome.Visited => "Visited",
        Outcome.FishMoved => "Fish moved",
        Outcome.FalseAlarm => "Nothing was wrong",
        Outcome.LossAccepted => "Nothing more to be done",
        Outcome.Other => "Something else",
    };

    /// <summary>A line of history, e.g. "Ines Okafor closed warm water: spare sent".</summary>
    public static string Of(HistoryLine line)
    {
        var kind = Of(line.Kind);
        var who = line.By ?? "The rules";
        return line.Event.Deed switch
        {
            FlagDeed.Opened => $"Flag opened: {kind}",
            FlagDeed.Updated => $"New numbers: {kind}, now {(line.Event.Urgency is { } u ? Of(u) : "changed")}",
            FlagDeed.SaidOver => $"A class reading says {kind} is over; an adult has to agree",
            FlagDeed.Cleared => $"Cleared: the cause of {kind} is gone",
            FlagDeed.Taken => $"{who} took {kind}",
            FlagDeed.HandedBack => $"{who} handed {kind} back",
            FlagDeed.Noted => $"{who} on {kind}",
            FlagDeed.Closed => $"{who} closed {kind}: {(line.Event.Outcome is { } o ? Of(o).ToLowerInvariant() : "done")}",
            FlagDeed.Reopened => $"{who} opened {kind} again",
        };
    }
}
