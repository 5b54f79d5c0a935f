using Tankside.Hatchery.Places;

namespace Tankside.Portal.Places;

/// <summary>Short words for marked areas and what schools answer.</summary>
public static class SweepWords
{
    public static string Of(SweepReason reason) => reason switch
    {
        SweepReason.Snow => "snow",
        SweepReason.PowerCut => "power cut",
        SweepReason.Flood => "flood",
        SweepReason.Other => "trouble in the area",
    };

    public static string Of(SweepAnswer answer) => answer switch
    {
        SweepAnswer.AllWell => "all well",
        SweepAnswer.PowerOff => "power is off",
        SweepAnswer.Trouble => "trouble",
        SweepAnswer.NobodyThere => "nobody is there",
    };

    /// <summary>"the whole programme", or the area as schools name it.</summary>
    public static string Area(string area) => area.Length == 0 ? "the whole programme" : area;
}
