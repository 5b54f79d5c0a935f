using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Readings;
using Tankside.Science.Units;

namespace Tankside.Hatchery.Flags.Rules;

/// <summary>Eggs go into water that has proved cold for days, or they wait elsewhere.</summary>
public static class ReadinessRules
{
    /// <summary>Eggs are due within days, and the tank is unread, off its set point, or at it for too short a time.</summary>
    public static Finding? NotReadyForEggs(TankRecord record, DateTime now)
    {
        var (calendar, limits) = (record.Calendar, record.Limits);
        var today = calendar.Clock.Day(now);
        if (record.Expected is not { SignedFor: false } eggs || eggs.On < today || eggs.On > today.AddDays((int)limits[Limits.Season.ReadyAhead])
            || NotCold(record, eggs.On, now) is not { } reason)
        {
            return null;
        }

        var mustBeColdOn = eggs.On.AddDays(-(int)limits[Limits.Season.ReadyDays]);
        var newest = record.Recent.LastOrDefault(r => r.Seen.WaterC is not null);
        var since = AtSetPointSince(record);
        var window = calendar.WindowOf(eggs.On);
        var begins = calendar.Clock.Utc(mustBeColdOn, default);
        var evidence = new ReadinessEvidence(
            LifeStage.Egg, reason, eggs.Eggs, eggs.On, newest?.Seen.WaterC, newest?.At, reason == Unready.NotProved ? since : null, record.Tank.SetPointC);
        var standsOn = newest is null || reason == Unready.Unread ? begins : newest.At;
        return new Finding(FlagKind.NotReady, Urgency.Today, standsOn, evidence, NothingInItYet(begins, window.Opens, window.Closes));
    }

    /// <summary>Why the water has not proved cold for eggs that come on a day; null when it has.</summary>
    public static Unready? NotCold(TankRecord record, DateOnly eggsOn, DateTime now)
    {
        var days = record.Limits[Limits.Season.ReadyDays];
        var newest = record.Recent.LastOrDefault(r => r.Seen.WaterC is not null);
        return newest is null || newest.At < now.AddDays(-days) ? Unready.Unread
            : AtSetPointSince(record) is not { } since ? Unready.OffSetPoint
            : record.Calendar.Clock.Day(since) > eggsOn.AddDays(-(int)days) ? Unready.NotProved
            : null;
    }

    /// <summary>The first reading of the unbroken run at the set point that ends with the newest; null when that one is off.</summary>
    private static DateTime? AtSetPointSince(TankRecord record)
    {
        var run = record.Recent.Reverse().Where(r => r.Seen.WaterC is not null)
            .TakeWhile(r => Math.Abs(Math.Round(r.Seen.WaterC!.Value - record.Tank.SetPointC, 2)) <= record.Limits[Limits.Season.ReadyOff]);
        return run.LastOrDefault() is ReadingFact first ? first.At : null;
    }

    /// <summary>No fish is lost yet, but the driver comes: time is counted to the hours in which the eggs are due.</summary>
    private static Hazard NothingInItYet(DateTime from, DateTime opens, DateTime closes)
    {
        var (first, last) = ((opens - from).TotalHours, (closes - from).TotalHours);
        var left = new Band(first, (first + last) / 2, last);
        return new Hazard(from, left, 0, left);
    }
}
