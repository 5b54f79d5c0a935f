namespace Tankside.Portal.Seasons.SetUp;

/// <summary>The season that a programme most likely means when it starts on a day: school years turn in the summer.</summary>
public sealed record FirstSeason(string Name, DateOnly StartsOn, DateOnly EndsOn)
{
    private const int FirstMonth = 7;

    public static FirstSeason At(DateOnly day)
    {
        var year = day.Month >= FirstMonth ? day.Year : day.Year - 1;
        return new FirstSeason($"{year}-{(year + 1) % 100:00}", new DateOnly(year, FirstMonth, 1), new DateOnly(year + 1, FirstMonth, 1).AddDays(-1));
    }
}
