using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Shell.Charts;

namespace Tankside.Portal.Flags.InTheTank;

/// <summary>A tank's dead day by day beside what its lot's other tanks lose.</summary>
public static class ExpectedLosses
{
    /// <summary>
    /// From delivery to the last counted day of a tank without fish, else to today. Expected: the siblings' deaths a fish-day times the fish
    /// alive here at the start of that day; null where no sibling was ever counted.
    /// </summary>
    public static List<LossDay> Days(TankRecord record, LotProfile lot, TankBalance balance, DateOnly today)
    {
        var counted = record.Days.ToDictionary(d => d.Day, d => d.Dead);
        var last = record.Fish > 0 ? today : counted.Where(d => d.Value is not null).Select(d => d.Key).DefaultIfEmpty(lot.DeliveredOn).Max();
        var perFish = record.Siblings.FishDays > 0 ? record.Siblings.Deaths / record.Siblings.FishDays : (double?)null;
        var alive = Math.Max(0, balance.In - balance.DeadOnArrival);
        var days = new List<LossDay>();
        for (var day = lot.DeliveredOn; day <= last; day = day.AddDays(1))
        {
            var dead = counted.GetValueOrDefault(day);
            days.Add(new LossDay(day, dead, perFish * alive));
            alive = Math.Max(0, alive - (dead ?? 0));
        }

        return days;
    }
}
