using Tankside.Hatchery.Places;
using Tankside.Science.Eggs;

namespace Tankside.Portal.Demo;

/// <summary>The invented valley of the demo season. No school, person or place of it exists.</summary>
public static class AlderBasin
{
    public const string Name = "Alder Basin";

    public const string TimeZone = "America/Denver";

    /// <summary>Printed at every demo start; the people who carry it are never let in outside Development.</summary>
    public const string Password = "eyed-eggs-swim-up";

    public static readonly string[] Areas = ["north", "river", "lakeside", "hills"];

    /// <summary>Thirty-one schools; the first seventeen have two rooms with a tank, the rest one: forty-eight tanks.</summary>
    public static readonly string[] Schools =
    [
        "Heron Ford Elementary", "Old Mill School", "Cedar Step Elementary", "Three Springs School", "Juniper Lane Elementary",
        "Lower Alder School", "Kestrel Elementary", "Stonebridge School", "Willow Reach Elementary", "Upper Alder School",
        "Beaver Pond School", "Northgate Elementary", "Quarry Hill School", "Sandbar Elementary", "Osprey School",
        "Ferry Landing Elementary", "Birch Hollow School", "Granite Fork Elementary", "Meadowlark School", "Pinecone Elementary",
        "Gravel Bar School", "Lantern Hill Elementary", "Otter Creek School", "Summit Road Elementary", "Cattail School",
        "Riverbend Elementary", "Long Meadow School", "Shale Canyon Elementary", "Tamarack School", "Windmill Elementary", "Yarrow School",
    ];

    public const int SchoolsWithTwoRooms = 17;

    public static Disinfectant DisinfectantOf(int school) => (school % 5) switch
    {
        0 => Disinfectant.Chloramine,
        4 => Disinfectant.Unknown,
        _ => Disinfectant.Chlorine,
    };

    /// <summary>The three lots: days since fertilisation and delivery, and which tanks they went to.</summary>
    public static readonly DemoLot[] Lots =
    [
        new("RB1", Species.RainbowTrout, "Alder Fork strain", FertilisedDaysAgo: 44, SpawnDays: 2, HatcheryC: 10.0, DeliveredDaysAgo: 23, Eggs: 200, FirstTank: 1, LastTank: 20, SetPointC: 11.1),
        new("RB2", Species.RainbowTrout, "Alder Fork strain", FertilisedDaysAgo: 20, SpawnDays: 1, HatcheryC: 10.0, DeliveredDaysAgo: 5, Eggs: 200, FirstTank: 21, LastTank: 36, SetPointC: 11.1),
        new("CK1", Species.ChinookSalmon, "Basin fall run", FertilisedDaysAgo: 128, SpawnDays: 3, HatcheryC: 9.0, DeliveredDaysAgo: 88, Eggs: 150, FirstTank: 37, LastTank: 48, SetPointC: 9.4),
    ];

    public static readonly (string Name, string Water)[] Sites =
    [
        ("Heron Ford landing", "Alder River"), ("Gravel Bar reach", "Alder River"), ("Cattail pond outlet", "Cattail Pond"),
    ];
}

/// <summary>A lot of the demo season, in days before the day it is seeded.</summary>
public sealed record DemoLot(
    string Code, Species Species, string Strain, int FertilisedDaysAgo, int SpawnDays, double HatcheryC, int DeliveredDaysAgo, int Eggs,
    int FirstTank, int LastTank, double SetPointC);
