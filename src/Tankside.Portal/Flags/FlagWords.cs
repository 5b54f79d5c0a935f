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

    public static string Of(TroubleCause cause) => cause switch
    {
        TroubleCause.Unknown => "not found out",
        TroubleCause.ChillerDead => "a dead chiller",
        TroubleCause.CoilIced => "an iced coil",
        TroubleCause.PlugOrBreaker => "a plug or a breaker",
        TroubleCause.PowerCut => "a power cut",
        TroubleCause.PumpBlocked => "a blocked or worn pump",
        TroubleCause.AirStopped => "air pump or stone",
        TroubleCause.SetPoint => "the set point",
        TroubleCause.RoomOrSun => "room heat or sun",
        TroubleCause.Thermometer => "the thermometer",
        TroubleCause.SlipInReading => "a slip in the reading",
        TroubleCause.WaterChange => "a water change",
        TroubleCause.Feeding => "feeding",
        TroubleCause.FilterOrWaste => "filter or waste",
        TroubleCause.Eggs => "the eggs themselves",
        TroubleCause.NobodyLooked => "that nobody looked",
        TroubleCause.Other => "something else",
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
            FlagDeed.Closed => $"{who} closed {kind}: {(line.Event.Outcome is { } o ? Of(o).ToLowerInvariant() : "done")}{(line.Event.Cause is { } c ? $"; it was {Of(c)}" : "")}",
            FlagDeed.Reopened => $"{who} opened {kind} again",
            FlagDeed.Assigned => $"{who} gave {kind} to {line.To ?? "somebody"}",
            FlagDeed.Called => $"{who} reached them about {kind}",
            FlagDeed.NotReached => $"{who} called about {kind}; nobody was reached",
            FlagDeed.Promised => $"{who} was promised something on {kind}{Until(line)}",
            FlagDeed.PromiseDue => $"A promise on {kind} was due and nothing came",
            FlagDeed.Waiting => $"{who} lets {kind} wait{Until(line)}",
            FlagDeed.WaitOver => line.By is null ? $"{kind} is back in the round" : $"{who} brought {kind} back into the round",
            FlagDeed.FirstAidSent => $"{who} sent first aid for {kind}",
            FlagDeed.SpareReserved => $"{who} reserved a spare for {kind}",
            FlagDeed.SpareGivenBack => $"{who} gave the spare for {kind} back",
        };
    }

    private static string Until(HistoryLine line) => line.Until is { } until ? $", until {until}" : "";
}
