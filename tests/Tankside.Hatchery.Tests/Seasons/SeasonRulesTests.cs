using System.Globalization;
using Tankside.Hatchery.Seasons;

namespace Tankside.Hatchery.Tests.Seasons;

public class SeasonRulesTests
{
    private static readonly Season Before = new() { Name = "2025-26", StartsOn = new(2025, 7, 1), EndsOn = new(2026, 6, 30) };

    [Theory]
    [InlineData("2026-07-01", "2027-06-30")]
    [InlineData("2026-07-01", "2028-01-02")]
    public void A_season_after_the_last_may_run_a_year_and_a_half(string starts, string ends) => Assert.Empty(Check(starts, ends));

    [Theory]
    [InlineData("2026-07-01", "2026-07-01", SeasonRefusal.EndsBeforeItStarts)]
    [InlineData("2026-07-01", "2028-01-03", SeasonRefusal.TooLong)]
    [InlineData("2026-06-30", "2027-06-30", SeasonRefusal.Overlaps)]
    [InlineData("2024-07-01", "2025-07-01", SeasonRefusal.Overlaps)]
    public void Days_that_a_season_cannot_have_are_refused(string starts, string ends, SeasonRefusal why) => Assert.Equal([why], Check(starts, ends));

    [Fact]
    public void What_was_entered_stays_within() =>
        Assert.Equal([SeasonRefusal.LeavesLinesOutside], Check("2026-09-02", "2027-06-30", (new(2026, 9, 1), new(2027, 6, 1))));

    private static List<SeasonRefusal> Check(string starts, string ends, (DateOnly, DateOnly)? entered = null) =>
        [.. SeasonRules.Check(DateOnly.ParseExact(starts, "yyyy-MM-dd", CultureInfo.InvariantCulture), DateOnly.ParseExact(ends, "yyyy-MM-dd", CultureInfo.InvariantCulture), [Before], entered)];
}
