using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Flags.AtTheTank;
using Tankside.Portal.Flags.FirstAidTexts;
using Tankside.Portal.Places;
using Tankside.Portal.Places.Labels;
using Tankside.Portal.Readings;
using Tankside.Portal.Shell.Charts;

namespace Tankside.Portal.Flags.Cards;

/// <summary>Whom an adult at the tank calls.</summary>
/// <param name="Phone">Null where none was given or the asker may not hand it on: there is then a line to write it on.</param>
public sealed record CardContact(string Name, string? Phone);

/// <summary>What cards say of one tank, at one moment.</summary>
/// <param name="Record">As it is judged, set to where the dial stands today.</param>
/// <param name="Development">Null before any eggs came.</param>
/// <param name="Label">Null for who must not have the code, and for a tank without one.</param>
public sealed record CardTank(TankPlace Place, TankRecord Record, DevelopmentNow? Development, DateTime Now, TankLabel? Label, IReadOnlyList<CardContact> Call)
{
    public string Code => Place.Tank.Code;

    public string Where => $"{Place.School.Name}, {Place.Room.Name}";

    public double DialC => Record.Tank.SetPointC;

    public AidTank Aid { get; } = AidTank.Of(Record);

    public DateOnly Today => Record.Calendar.Clock.Day(Now);

    /// <summary>Before the eggs it is made ready for eggs.</summary>
    public LifeStage Stage => Development?.Stage ?? LifeStage.Egg;

    public SafeBand Safe => StageBand.Of(Stage, Record.Limits);

    /// <summary>What the class reads of it.</summary>
    public TankView View => new(Place, Record, Development, Now, LastUnit: null);

    public CardSheet Sheet(CardKind kind, ClassWords words) =>
        Drawn(kind, Place.Names is { AreOurs: false } names ? words.Calling(text => names.In(text, words.Language)) : words);

    private CardSheet Drawn(CardKind kind, ClassWords words) => kind switch
    {
        CardKind.Substitute => SubstituteCard.Of(this, words),
        CardKind.Caretaker => CaretakerCard.Of(this, words),
        CardKind.Emergency => EmergencyCard.Of(this, words),
    };
}
