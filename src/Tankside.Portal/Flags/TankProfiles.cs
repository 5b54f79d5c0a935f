using Tankside.Hatchery.Flags;
using Tankside.Portal.Places;

namespace Tankside.Portal.Flags;

/// <summary>A tank's surroundings as the rules take them.</summary>
public static class TankProfiles
{
    extension(TankPlace place)
    {
        public LimitSet Limits => new(place.OwnSettings);

        /// <summary>What its programme calls the stages.</summary>
        public StageNames Names => StageNames.Of(place.OwnTexts);

        public TankProfile Profile() => new()
        {
            Id = place.Tank.Id,
            Code = place.Tank.Code,
            Litres = place.Tank.Litres,
            Jacket = place.Tank.Jacket,
            SetPointC = place.Tank.SetPointC,
            RoomC = place.Tank.RoomC,
            ElevationM = place.School.ElevationM,
            Disinfectant = place.School.Disinfectant,
            Area = place.School.Area,
            ChillerBatch = place.Tank.ChillerBatch,
            Water = place.School.WaterSupply,
            School = place.School.Id.ToString(),
            NewTeacher = place.Room.NewTeacher,
            DistanceKm = place.School.DistanceKm,
        };
    }
}
