using System.Globalization;
using Tankside.Hatchery.Flags;

namespace Tankside.Portal.Flags.Numbers;

/// <summary>Numbers and their ranges as they are read and typed.</summary>
public static class NumberFigures
{
    public static string Of(double value) => value.ToString("0.##########", CultureInfo.InvariantCulture);

    public static string With(Setting setting, double value) => $"{Of(value)} {setting.Unit}";

    public static string Of(SettingRange range) => $"{(range.Whole ? "a whole number " : "")}from {Of(range.Least)} to {Of(range.Most)}";

    /// <summary>Why the number cannot stand, with what was typed left in the form.</summary>
    public static string Of(SettingRefusal refusal, double typed) => refusal switch
    {
        SettingRefusal.OutOfRange(var range) => $"It has to be {Of(range)}; this is {Of(typed)}. Nothing was saved.",
        SettingRefusal.UnderOther(var other, var value) =>
            $"It may not be under “{Name(other)}”, which is {Of(value)}; this is {Of(typed)}. Nothing was saved: change the other one first.",
        SettingRefusal.OverOther(var other, var value) =>
            $"It may not be over “{Name(other)}”, which is {Of(value)}; this is {Of(typed)}. Nothing was saved: change the other one first.",
        SettingRefusal.MoreThanAll(var parts, var sum) =>
            $"{string.Join(", ", parts.Select(p => $"“{Name(p)}”"))} are parts of one whole; together they would be {Of(sum)}, and at most 1 is there. Nothing was saved.",
        _ => throw new ArgumentOutOfRangeException(nameof(refusal)),
    };

    public static string Name(Setting setting) => NumberWords.Find(setting.Key)?.Word.Name ?? setting.Key;
}
