using Tankside.Science.Eggs;

namespace Tankside.Hatchery.Readings;

/// <summary>One day's start on the way to a stage.</summary>
public readonly record struct WayDay(DateOnly Day, FractionDay At);

/// <summary>The way to a stage, day by day from the eggs' arrival.</summary>
/// <param name="Input">What the date of the stage was reckoned from; its today is <paramref name="Anchor"/>.</param>
/// <param name="Anchor">The first day that the input does not count as past.</param>
/// <param name="Later">Fraction by which the hatches seen in the lot make the way longer; 0 when they taught nothing.</param>
public sealed record StageWay(ForecastInput Input, DateOnly Anchor, double Later)
{
    /// <summary>The days from the first known one to <paramref name="last"/>, both included; none when it lies before them.</summary>
    public IReadOnlyList<WayDay> Until(DateOnly last)
    {
        var first = Anchor.AddDays(-Input.Past.Count);
        var course = DevelopmentCourse.Of(Input, Math.Max(0, last.DayNumber - Anchor.DayNumber));
        return [.. course.Select((at, day) => new WayDay(first.AddDays(day), Scaled(at))).TakeWhile(day => day.Day <= last)];
    }

    /// <summary>The input counts the longer way as less of it done; shown is the share of the longer way.</summary>
    private FractionDay Scaled(FractionDay at) => new((at.Fraction + Later) / (1 + Later), at.Sd / (1 + Later));
}
