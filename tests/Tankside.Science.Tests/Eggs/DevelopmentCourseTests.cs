using Tankside.Science.Eggs;
using Tankside.Science.Units;

namespace Tankside.Science.Tests.Eggs;

/// <summary>The fan of the fraction agrees with the interval of the date, which is checked against drawn eggs.</summary>
public class DevelopmentCourseTests
{
    public static TheoryData<string> Causes => [.. Enum.GetNames<ForecastPartName>(), "all"];

    [Theory]
    [MemberData(nameof(Causes))]
    public void Where_the_fraction_is_one_its_error_in_days_is_that_of_the_date(string cause)
    {
        var input = Whole(cause == "all" ? ForecastTests.Input() : ForecastTests.Only(ForecastTests.Input(), Enum.Parse<ForecastPartName>(cause)));
        var forecast = Development.Forecast(input);
        var days = (int)Math.Round(forecast.DaysAhead!.Value);

        var there = DevelopmentCourse.Of(input, days)[^1];

        Assert.Equal(1, there.Fraction, 1e-9);
        Assert.Equal(forecast.SdDays, there.Sd / input.Model.RateAt(input.Future[^1]), 1e-9);
    }

    [Fact]
    public void Today_stands_after_the_days_past_and_each_day_adds_its_rate()
    {
        var input = ForecastTests.Input();

        var course = DevelopmentCourse.Of(input, 5);

        Assert.Equal(input.Past.Count + 6, course.Count);
        Assert.Equal(input.FractionSoFar, course[input.Past.Count].Fraction, 1e-12);
        for (var day = 0; day < input.Past.Count; day++)
        {
            Assert.Equal(input.Model.RateAt(input.Past[day].Mean), course[day + 1].Fraction - course[day].Fraction, 1e-12);
        }
    }

    [Fact]
    public void Nothing_is_less_than_not_begun()
    {
        var input = ForecastTests.Input() with { FractionSoFar = 0.01, StartFractionSd = 0.2, Past = [] };

        Assert.Equal(0, DevelopmentCourse.Of(input, 0)[0].Within80.Low);
        Assert.Throws<ArgumentOutOfRangeException>(() => DevelopmentCourse.Of(input, -1));
    }

    /// <summary>The same eggs so far along that a whole number of days is left, so that no day is shared out.</summary>
    private static ForecastInput Whole(ForecastInput input)
    {
        var rate = input.Model.RateAt(input.Future[^1]);
        Celsius[] steady = [input.Future[^1]];
        return input with { Future = steady, FractionSoFar = 1 - (Math.Round((1 - input.FractionSoFar) / rate) * rate) };
    }
}
