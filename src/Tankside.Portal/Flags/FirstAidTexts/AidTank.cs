using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Portal.Places;
using Tankside.Science.Heat;

namespace Tankside.Portal.Flags.FirstAidTexts;

/// <summary>What first aid needs to know of the tank it is for.</summary>
public sealed record AidTank
{
    public double Litres { get; init; } = 208;

    public Jacket Jacket { get; init; }

    public double SetPointC { get; init; } = 10.5;

    public double RoomC { get; init; } = 21;

    public Disinfectant Disinfectant { get; init; }

    public LimitSet Limits { get; init; } = LimitSet.Defaults;

    /// <summary>What its programme says in its own words.</summary>
    public OwnTexts Texts { get; init; } = OwnTexts.None;

    /// <summary>Null for a cause that several tanks share.</summary>
    public string? Code { get; init; }

    public static AidTank Of(TankPlace place) => new()
    {
        Litres = place.Tank.Litres,
        Jacket = place.Tank.Jacket,
        SetPointC = place.Tank.SetPointC,
        RoomC = place.Tank.RoomC,
        Disinfectant = place.School.Disinfectant,
        Limits = new LimitSet(place.OwnSettings),
        Texts = place.OwnTexts,
        Code = place.Tank.Code,
    };

    public static AidTank Of(TankRecord record) => new()
    {
        Litres = record.Tank.Litres,
        Jacket = record.Tank.Jacket,
        SetPointC = record.Tank.SetPointC,
        RoomC = record.Tank.RoomC,
        Disinfectant = record.Tank.Disinfectant,
        Limits = record.Limits,
        Texts = record.Texts,
        Code = record.Tank.Code,
    };
}
