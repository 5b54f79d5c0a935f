using Tankside.Hatchery.Releases;

namespace Tankside.Hatchery.Flags;

/// <summary>Why a number cannot stand beside the programme's others.</summary>
public abstract record SettingRefusal
{
    /// <summary>It is beyond what the number may be at all.</summary>
    public sealed record OutOfRange(SettingRange Range) : SettingRefusal;

    /// <summary>It has to be no less than the other.</summary>
    public sealed record UnderOther(Setting Other, double Value) : SettingRefusal;

    /// <summary>It has to be no more than the other.</summary>
    public sealed record OverOther(Setting Other, double Value) : SettingRefusal;

    /// <summary>These shares are parts of one whole, and would be more than all of it.</summary>
    public sealed record MoreThanAll(IReadOnlyList<Setting> Parts, double Sum) : SettingRefusal;
}

/// <summary>What has to come before what: somebody looks before they act, and a limit is passed before the next one.</summary>
public static class SettingOrder
{
    public static IReadOnlyList<(Setting Lower, Setting Upper)> Pairs { get; } =
    [
        (Limits.WarmLookEgg, Limits.WarmActEgg),
        (Limits.WarmLookFry, Limits.WarmActFry),
        (Limits.ColdActEgg, Limits.ColdLookEgg),
        (Limits.ColdActFry, Limits.ColdLookFry),
        (Limits.ColdLookEgg, Limits.WarmLookEgg),
        (Limits.ColdLookFry, Limits.WarmLookFry),
        (Limits.HeatLimitEgg, Limits.HeatNextEgg),
        (Limits.HeatLimitEggBrown, Limits.HeatNextEgg),
        (Limits.HeatLimitFry, Limits.HeatNextFry),
        (Limits.HeatLimitFryBrown, Limits.HeatNextFry),
        (Limits.SilentDaysAfterFlag, Limits.SilentDays),
        (Limits.AmmoniaLook, Limits.AmmoniaAct),
        (Limits.OxygenActEgg, Limits.OxygenLookEgg),
        (Limits.OxygenActFry, Limits.OxygenLookFry),
        (Limits.OxygenLimitEgg, Limits.OxygenActEgg),
        (Limits.OxygenLimitFry, Limits.OxygenActFry),
        (Limits.PowerActNow, Limits.PowerToday),
        (Limits.NitriteLook, Limits.NitriteAct),
        (Limits.NitriteAct, Limits.NitriteFar),
        (Limits.ChlorineLimit, Limits.ChlorineQuick),
        (Limits.PhFallLeast, Limits.PhFallOfTwo),
        (Limits.StuckFine, Limits.StuckWhole),
        (Limits.StuckWhole, Limits.StuckWholeCelsius),
        (Limits.AidChangeAcid, Limits.AidChange),
        (Limits.SetPoints.Low, Limits.SetPoints.High),
        (Limits.Leaving.HungerDays, Limits.Leaving.HungerDaysFed),
        (Limits.Spares.RepairWeeks, Limits.Spares.SeasonWeeks),
        (ProgrammeNumbers.Find(TemperingSettings.Coldest.Key)!, ProgrammeNumbers.Find(TemperingSettings.Warmest.Key)!),
    ];

    /// <summary>Shares of one whole.</summary>
    private static readonly Setting[] Faults = [Limits.Leaving.ChillerPart, Limits.Leaving.PumpPart, Limits.Leaving.PowerPart];

    /// <summary>What stands against the number; null when it may be set.</summary>
    /// <param name="now">The programme's numbers as they are.</param>
    public static SettingRefusal? Check(Setting setting, double value, LimitSet now)
    {
        var range = SettingRange.Of(setting);
        if (!range.Holds(value))
        {
            return new SettingRefusal.OutOfRange(range);
        }

        foreach (var (lower, upper) in Pairs)
        {
            if (setting.Key == upper.Key && value < now[lower])
            {
                return new SettingRefusal.UnderOther(lower, now[lower]);
            }

            if (setting.Key == lower.Key && value > now[upper])
            {
                return new SettingRefusal.OverOther(upper, now[upper]);
            }
        }

        var sum = value + Faults.Where(f => f.Key != setting.Key).Sum(f => now[f]);
        return Faults.Any(f => f.Key == setting.Key) && sum > 1 + 1e-9 ? new SettingRefusal.MoreThanAll(Faults, sum) : null;
    }
}
