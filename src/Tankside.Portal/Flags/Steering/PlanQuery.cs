using System.Globalization;
using Tankside.Hatchery.Readings.SetPoints;

namespace Tankside.Portal.Flags.Steering;

/// <summary>What is asked of the planner, as it stands in the address, with what is wrong in it.</summary>
public sealed record PlanQuery(SetPointGoal Goal, DateOnly? Day, DateOnly? Release, string? Wrong)
{
    public const string Clear = "clear", Hatch = "hatch-on", SwimUp = "swim-up-by";

    public static PlanQuery Read(string? goal, string? day, string? release, DateOnly today)
    {
        SetPointGoal? asked = goal switch
        {
            null or "" or Clear => SetPointGoal.ClearOfClosedDays,
            Hatch => SetPointGoal.HatchOn,
            SwimUp => SetPointGoal.SwimUpBy,
            _ => null,
        };
        var (on, dayWrong) = Date(day);
        var (until, releaseWrong) = Date(release);
        var wrong = asked is null ? "Choose one of the three goals. Nothing was planned."
            : dayWrong || releaseWrong ? "A day is written as year-month-day, for example 2027-02-09. Nothing was planned."
            : asked != SetPointGoal.ClearOfClosedDays && on is null ? "Say which day you ask for. Nothing was planned."
            : asked != SetPointGoal.ClearOfClosedDays && on < today || until < today ? "The day lies in the past; name one from today on. Nothing was planned."
            : null;
        return new PlanQuery(asked ?? SetPointGoal.ClearOfClosedDays, asked == SetPointGoal.ClearOfClosedDays ? null : on, until, wrong);
    }

    public static string WordOf(SetPointGoal goal) => goal switch
    {
        SetPointGoal.ClearOfClosedDays => Clear,
        SetPointGoal.HatchOn => Hatch,
        SetPointGoal.SwimUpBy => SwimUp,
    };

    private static (DateOnly? Day, bool Wrong) Date(string? text) => string.IsNullOrWhiteSpace(text) ? (null, false)
        : DateOnly.TryParseExact(text.Trim(), "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day) ? (day, false)
        : (null, true);
}
