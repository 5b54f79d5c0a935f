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
            $"{Now.Record.Fish} fish are more than this tank has room for as fingerlings, about {AllotmentRules.Capacity(Now.Place.Tank.Litres, Now.Place.OwnSettings.Of(EggSettings.PerLitre))}. Ask your coordinator about an early release or a second tank.",
        FeedingWarning.NeedsARipeFilter =>
            $"At full feed, and with a tenth of the water changed a day, ammonia would level off near {now.LevelsOffMgL.ToString("0.0", CultureInfo.InvariantCulture)} mg/L if the filter took nothing. A filter takes six to eight weeks to ripen: feed little at first and test three times a week.",
        FeedingWarning.TooColdToFeed => $"At {Now.Scale.Both(now.Weeks[0].WaterC)} fry hardly eat. Ask your coordinator before first feeding.",
    };
}
