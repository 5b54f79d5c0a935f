using System.Globalization;
using Tankside.Hatchery.Places;

namespace Tankside.Portal.Flags.Sweeps;

internal sealed class EnglishSweepTexts : SweepTexts
{
    private const string Plugs = "Plugs and cords: only an adult with dry hands. Your school's and agency's own rules come first.";

    protected override CultureInfo Culture => CultureInfo.InvariantCulture;

    public override string Subject(AreaSweep sweep) => sweep.Reason switch
    {
        SweepReason.PowerCut => $"Power cut{In(sweep)}: how is your tank?",
        SweepReason.Snow => $"Snow{In(sweep)}: how is your tank?",
        SweepReason.Flood => $"Flood{In(sweep)}: how is your tank?",
        SweepReason.Other => $"Trouble{In(sweep)}: how is your tank?",
    };

    public override string Happened(SweepMessage message)
    {
        var sweep = message.Sweep;
        var what = sweep.Reason switch
        {
            SweepReason.PowerCut => "The power is out",
            SweepReason.Snow => "Schools are shut by snow",
            SweepReason.Flood => "Schools are shut by a flood",
            SweepReason.Other => "There is trouble",
        };
        var until = sweep.Until is { } end ? $", expected to end about {When(message, end)}" : "";
        return $"{what}{In(sweep)} since {When(message, sweep.From)}{until}.{(sweep.Note is { } note ? $" {note}" : "")}";
    }

    public override IReadOnlyList<string> Steps(SweepReason reason) => reason switch
    {
        SweepReason.PowerCut =>
        [
            "Battery air first: the stone in the water, bubbles coming. Without one, pour water from a clean cup, again and again.",
            "Then ice: sealed frozen bottles, bagged twice. No bare ice. A blanket around the tank.",
            "No feeding. Lid on, lights off.",
            Plugs,
            "When the power is back: is the water moving, and is the chiller's display on its set point?",
        ],
        SweepReason.Snow or SweepReason.Flood =>
        [
            "Do not travel for the tank, and enter a shut building only with leave.",
            "Is a caretaker or somebody from the office there? Ask them to look: is the water moving, are there bubbles, what does the thermometer in the water say?",
            "No feeding. Lid on.",
            reason == SweepReason.Flood ? "Stay away from the tank's cords where water stands on the floor; that is for the building's electrician. " + Plugs : Plugs,
        ],
        _ => ["Look at the tank if you can do it safely: is the water moving, are there bubbles, what does the thermometer in the water say?", "No feeding until you know. Lid on.", Plugs],
    };

    public override string Letter(SweepMessage message, string name, Uri link) =>
        $"""
        Hello {name},

        {Happened(message)}

        Please answer with one press, without signing in:

        {link}

        If you can get to the tank, in this order:

        {Numbered(message.Sweep.Reason)}

        If you cannot get there, say so: then we look for somebody who can.
        The link is for you alone. Please name no child in a note.{(message.Contact is { } contact ? $"\nYou may also text or ring {contact}." : "")}

        {message.Programme}, by Tankside
        """;

    public override string ForTelephone(SweepMessage message, string? link)
    {
        var answer = link is null
            ? "Text back WELL, OFF (no power), TROUBLE or NOBODY THERE, and the water temperature if you can read it."
            : $"Answer with one press: {link}";
        var first = message.Sweep.Reason == SweepReason.PowerCut
            ? "Battery air first, then ice in sealed bottles. No feeding, lid on. Plugs: an adult with dry hands."
            : "Do not travel for the tank. No feeding, lid on.";
        return $"{message.Programme}: {Happened(message)} {answer} {first}";
    }

    private static string In(AreaSweep sweep) => sweep.Area.Length == 0 ? "" : $" in the area {sweep.Area}";
}
