using Tankside.Hatchery.Flags.Rehearsals;

namespace Tankside.Portal.Flags.Rehearsals;

/// <summary>What the adult at a made-up tank says when the coordinator rings.</summary>
public static class FoundWords
{
    public static string Of(Story story) => story switch
    {
        Story.PumpOutBigFish => "The pump is jammed and the fish hang under the surface, gasping. They are big: the air lasts hours at the most.",
        Story.StillBasket => "The pump hums but nothing moves. They lie heaped in the basket, where they use up the water around them first.",
        Story.EverythingStopped => "Chiller, pump and air are all dark: the strip they hang on was switched off. The outlet itself is live.",
        Story.NoBubbles => "The air hose has come off. The pump still turns the water, so the fish have more time than it looks, but not a day.",
        Story.RisingFast => "The water is warmer to the hand than yesterday. The chiller’s display is lit, but its fan stands still.",
        Story.ChillerOff => "The chiller’s plug is half out and its display dark. The water has already warmed.",
        Story.IcedCoil => "The coil is one block of ice with hardly any water moving past it. When the ice stops the flow the water will warm.",
        Story.HeldHot => "The room is heated day and night and the chiller never rests. It holds, but too warm for these fish.",
        Story.SilentAfterBadWord => "Nobody had looked since. The chiller is off and the water far too warm.",
        Story.AlkalineAmmonia => "The test is dark green, and the pH is high: much of this ammonia is the poisonous part.",
        Story.DieOff => "Dead ones lie all over the tank, and not all have been taken out.",
        Story.HeldWarm => "It has stood at this number for days, steady. A little over the look-out line, no more; it can be cooled step by step this week.",
        Story.SilentDays => "The usual adult was away and the stand-in did not know of the readings. Cold, moving, bubbles: all is well.",
        Story.SilentAfterBreak => "Nobody had come to the tank yet this morning. They look now: cold, moving, bubbles.",
        Story.AmmoniaWithoutPh => "They have no pH strip left. Without the pH nobody can say whether this harms; ask the next room for a strip.",
        Story.TooCold => "The dial was turned down on purpose. The cold slows them and does not kill them quickly.",
        Story.LateHatch => "The eyes are clear and dark, nothing has hatched. Late is often only colder than thought.",
        Story.Well => "All is well: cold, moving, bubbles. They wonder why you ring.",
        Story.FryAtFiftyFour => "The fry are lively. Their chiller is set to 54 °F, which is right for fry; the poster is for eggs.",
        Story.RestingChiller => "The water is as cold as it should be, so the chiller was resting. It has started again meanwhile.",
        Story.AcidAmmonia => "The pH is low, so nearly all of that ammonia is the harmless part. A big change with alkaline tap water would make it poisonous.",
        Story.OddNumber => "It was 52 on the Fahrenheit side. The class answered the question before you rang.",
        Story.WorriedNote => "One dead in a full tank is usual. They are glad that you rang.",
        Story.FoamAfterHatch => "Foam and shells are what a hatch leaves behind. They skim it off with a cup.",
        Story.SchoolClosed => "Nobody answers: the school is shut this week, and the calendar said so.",
    };

    /// <summary>Whether the call was for something: what only looked loud is told as such.</summary>
    public static bool WasTrouble(Story story) => Stories.KindOf(story) is not null;
}
