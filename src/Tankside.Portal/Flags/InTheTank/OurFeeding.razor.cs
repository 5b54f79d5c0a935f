using System.Globalization;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Readings;

namespace Tankside.Portal.Flags.InTheTank;

/// <summary>What fry weigh and get, and why that may become too much.</summary>
public partial class OurFeeding
{
    private string Said(FeedingWarning warning, FeedingPlan now) => warning switch
    {
        FeedingWarning.TooManyForTheTank =>
            Say.Of("{0} fish are more than this tank has room for as fingerlings, about {1}. Ask your coordinator about an early release or a second tank.", Now.Record.Fish, AllotmentRules.Capacity(Now.Place.Tank.Litres, Now.Place.OwnSettings.Of(EggSettings.PerLitre))),
        FeedingWarning.NeedsARipeFilter =>
            Say.Of("At full feed, and with {1} of the water changed a day, ammonia would level off near {0} mg/L if the filter took nothing. A filter takes six to eight weeks to ripen: feed little at first and test three times a week.",
                now.LevelsOffMgL.ToString("0.0", CultureInfo.InvariantCulture), (100 * Now.Record.Limits[Hatchery.Flags.Limits.Season.FeedChange]).ToString("0.#", CultureInfo.InvariantCulture) + "%"),
        FeedingWarning.TooColdToFeed =>
            Now.Place.Names.In(Say.Of("At {0} fry hardly eat. Ask your coordinator before first feeding.", Now.Scale.Both(now.Weeks[0].WaterC)), Say.Language),
    };
}
