using System.Text.Json;

namespace Tankside.Hatchery.Readings.SetPoints;

/// <summary>A plan that is kept, and how the water has kept to it.</summary>
/// <param name="DaysRead">Days since its first with a temperature.</param>
/// <param name="DaysOff">Those of them whose mean lay more than <see cref="OffC"/> from the plan.</param>
public sealed record PlanProgress(double TodayC, SetPointStep? Next, int DaysRead, int DaysOff)
{
    /// <summary>As far as this a day's mean may lie from the dial, °C: a thermometer's error and the chiller's swing.</summary>
    public const double OffC = 1;

    public static PlanProgress On(DateOnly today, IReadOnlyList<SetPointStep> steps, IEnumerable<TankDay> days)
    {
        var read = days.Where(d => d.MeanC is not null && d.Day >= steps[0].On && d.Day <= today).ToList();
        SetPointStep? next = steps.Where(s => s.On > today).Select(s => (SetPointStep?)s).FirstOrDefault();
        return new PlanProgress(
            SetPointCourse.On(steps, today), next, read.Count, read.Count(d => Math.Abs(d.MeanC!.Value - SetPointCourse.On(steps, d.Day)) > OffC));
    }
}

/// <summary>The steps of a plan as they are stored.</summary>
public static class StoredSteps
{
    private static readonly JsonSerializerOptions Options = new(JsonSerializerDefaults.Web);

    public static string Write(IEnumerable<SetPointStep> steps) => JsonSerializer.Serialize(steps.Select(s => s with { C = Math.Round(s.C, 4) }), Options);

    public static IReadOnlyList<SetPointStep> Read(string text) => JsonSerializer.Deserialize<List<SetPointStep>>(text, Options) ?? [];
}
