namespace Tankside.Hatchery.Flags;

/// <summary>What a number may be at all: beyond it the rules would say nonsense, whatever a programme finds right.</summary>
public readonly record struct SettingRange(double Least, double Most, bool Whole = false)
{
    /// <summary>By the beginning of the unit, the longest that fits.</summary>
    private static readonly Dictionary<string, SettingRange> ByUnit = new(StringComparer.Ordinal)
    {
        ["share"] = new(0, 1),
        ["chance"] = new(0, 1),
        ["probability"] = new(1e-9, 0.5),
        ["difference of chances"] = new(0, 0.5),
        ["°C"] = new(0, 30),
        ["°C a day"] = new(0.05, 5),
        ["°C an hour"] = new(0.05, 5),
        ["hours"] = new(0.1, 2000),
        ["days"] = new(1, 400, Whole: true),
        ["days kept"] = new(7, 4000, Whole: true),
        ["school days"] = new(1, 60, Whole: true),
        ["closed days"] = new(1, 60, Whole: true),
        ["weeks"] = new(0.1, 60),
        ["minutes"] = new(1, 240),
        ["o'clock"] = new(0, 23, Whole: true),
        ["mg/L"] = new(0.0001, 20),
        ["pH"] = new(0.01, 3),
        ["dead"] = new(1, 1000, Whole: true),
        ["tanks"] = new(1, 1000, Whole: true),
        ["times"] = new(1, 100),
        ["equal looks"] = new(3, 200, Whole: true),
        ["fish expected"] = new(0, 1000),
        ["%"] = new(1, 150),
        ["g each"] = new(0.01, 50),
        ["road km"] = new(1, 5),
        ["km/h"] = new(5, 130),
        ["L under"] = new(1, 5000),
        ["faults an hour"] = new(0, 0.1),
        ["deaths a fish and day"] = new(0.00001, 0.5),
        ["hatches on a closed day"] = new(0.01, 1000),
        ["eggs a litre"] = new(0.01, 20),
        ["eggs of one pack"] = new(1, 100_000, Whole: true),
    };

    private static readonly Dictionary<string, SettingRange> ByKey = new(StringComparer.Ordinal)
    {
        [Limits.WarmingStep.Key] = new(0.1, 10),
        [Limits.PhLow.Key] = new(4, 9),
        [Limits.AidAcidPh.Key] = new(4, 9),
        [Limits.AmmoniaDoubtPh.Key] = new(5, 10),
        [Limits.RiseInterval.Key] = new(0.5, 1000),
        [Limits.Season.FirstBeforeHalf.Key] = new(0, 20),
        [Limits.Season.FeedChange.Key] = new(0.01, 1),
        [Limits.Season.ReadyAhead.Key] = new(0, 60, Whole: true),
        [Limits.Season.DaysBeforeBreak.Key] = new(0, 60, Whole: true),
        [Limits.SharedBaseWeight.Key] = new(0, 10_000),
        [Limits.SharedCut.Key] = new(0.001, 0.9),
        [Limits.SharedLossChance.Key] = new(0.00001, 0.9),
        [Limits.SharedRiseChance.Key] = new(0.00001, 0.9),
        [Limits.SharedEarlyHatchChance.Key] = new(0.00001, 0.9),
        [Limits.SharedWaterChance.Key] = new(0.00001, 0.9),
        [Limits.SharedPowerChance.Key] = new(0.00001, 0.9),
        [Limits.SharedChillerChance.Key] = new(0.00001, 0.9),
        [Limits.Spares.Cover.Key] = new(0.5, 0.9999),
        ["eggs.certainty"] = new(0.5, 0.999),
        ["report-due.remind-days"] = new(0, 60, Whole: true),
    };

    public static SettingRange Of(Setting setting) => ByKey.TryGetValue(setting.Key, out var own) ? own : ByUnit
        .Where(u => setting.Unit.StartsWith(u.Key, StringComparison.Ordinal))
        .OrderByDescending(u => u.Key.Length)
        .Select(u => u.Value)
        .DefaultIfEmpty(new SettingRange(double.NaN, double.NaN))
        .First();

    public bool Holds(double value) => value >= Least && value <= Most && (!Whole || value == Math.Floor(value));
}
