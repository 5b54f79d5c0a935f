namespace Tankside.Portal.Eggs.Runs;

/// <summary>How box and tank are brought together, in the order in which it is done; and what comes before all of it.</summary>
internal static class Tempering
{
    public static readonly IReadOnlyList<string> Steps =
    [
        "Read the temperature in the box or bag, then in the tank. Write both down.",
        "Float the closed bag or cup in the tank, or add tank water to it: a quarter every 10 to 15 minutes.",
        "Go on for 20 to 60 minutes, until both are within 2 °F (1 °C) of each other.",
        "Count the dead, take a photo, and pour the eggs under water in one layer.",
        "Packing and box water go into the sink, not into the tank.",
    ];

    public const string NotCold = "Is the tank warmer than it should be? Then leave the eggs in the cooler, lid shut, moist, no standing melt water, and ring the coordinator.";

    public const string Caution = "The hatchery’s and the agency’s own sheet comes first. Lift coolers and buckets with two people. Wet hands stay away from plugs.";
}
