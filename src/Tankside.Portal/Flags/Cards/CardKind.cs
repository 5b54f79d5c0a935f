using Tankside.Portal.Flags.FirstAidTexts;

namespace Tankside.Portal.Flags.Cards;

/// <summary>For whom a card is.</summary>
public enum CardKind
{
    /// <summary>A teacher who has never seen the tank.</summary>
    Substitute,

    /// <summary>Whoever has the building at night and in the holidays.</summary>
    Caretaker,

    /// <summary>Any adult when something has stopped or runs out.</summary>
    Emergency,
}

/// <summary>What cards are called.</summary>
public static class CardKinds
{
    public static readonly IReadOnlyList<CardKind> All = Enum.GetValues<CardKind>();

    /// <summary>As addresses name it.</summary>
    public static string NameOf(CardKind kind) => kind.ToString().ToLowerInvariant();

    /// <summary>Null for a card that there is not.</summary>
    public static CardKind? Named(string name) => All.Where(k => NameOf(k) == name).Select(k => (CardKind?)k).FirstOrDefault();

    public static Bilingual Of(CardKind kind) => kind switch
    {
        CardKind.Substitute => new("Substitute’s card", "Tarjeta para el suplente"),
        CardKind.Caretaker => new("Caretaker’s card", "Tarjeta para el conserje"),
        CardKind.Emergency => new("Emergency card", "Tarjeta de emergencia"),
    };

    /// <summary>Whom it is for and what it tells them.</summary>
    public static string For(CardKind kind) => kind switch
    {
        CardKind.Substitute => "For a teacher who has never seen the tank: what to look at, how cold the water must be today, how to send the reading, what never to do.",
        CardKind.Caretaker => "For whoever has the building at night and in the holidays: what must keep humming, what to do when it leaks, is warm or is silent, which days the school is closed.",
        CardKind.Emergency => "For any adult when something has stopped: how many hours this tank has, ice for its litres, first aid step by step.",
    };
}
