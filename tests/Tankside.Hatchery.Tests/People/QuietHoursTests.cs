using Tankside.Hatchery.People;

namespace Tankside.Hatchery.Tests.People;

public class QuietHoursTests
{
    private static readonly ProgrammeClock Denver = ProgrammeClock.Of("America/Denver");

    [Theory]
    [InlineData("2027-02-03", "21:59", null)]
    [InlineData("2027-02-03", "22:00", "2027-02-04 06:30")]
    [InlineData("2027-02-04", "00:00", "2027-02-04 06:30")]
    [InlineData("2027-02-04", "06:29", "2027-02-04 06:30")]
    [InlineData("2027-02-04", "06:30", null)]
    public void Quiet_reaches_over_midnight_and_ends_in_the_morning(string day, string time, string? ends) =>
        Assert.Equal(At(ends), new QuietHours(new(22, 0), new(6, 30)).EndsAfter(At($"{day} {time}")!.Value, Denver));

    [Theory]
    [InlineData("12:30", "13:00")]
    [InlineData("11:59", null)]
    [InlineData("13:00", null)]
    public void Quiet_within_a_day_ends_on_that_day(string time, string? ends) => Assert.Equal(
        At(ends is null ? null : $"2027-02-03 {ends}"), new QuietHours(new(12, 0), new(13, 0)).EndsAfter(At($"2027-02-03 {time}")!.Value, Denver));

    /// <summary>On 14 March 2027 the clocks of Denver go from 02:00 to 03:00: a night of 22 to 06 is an hour shorter.</summary>
    [Fact]
    public void A_night_in_spring_ends_at_the_clock_time_all_the_same() => Assert.Equal(
        new DateTime(2027, 3, 14, 12, 0, 0, DateTimeKind.Utc),
        new QuietHours(new(22, 0), new(6, 0)).EndsAfter(new DateTime(2027, 3, 14, 5, 0, 0, DateTimeKind.Utc), Denver));

    /// <summary>On 7 November 2027 the hour from 01:00 comes twice: 07:15 UTC is the first 01:15, 08:15 UTC the second.</summary>
    [Fact]
    public void Quiet_that_ends_in_the_hour_given_twice_ends_the_first_time()
    {
        var quiet = new QuietHours(new(22, 0), new(1, 30));

        Assert.Equal(new DateTime(2027, 11, 7, 7, 30, 0, DateTimeKind.Utc), quiet.EndsAfter(new DateTime(2027, 11, 7, 7, 15, 0, DateTimeKind.Utc), Denver));
        Assert.Null(quiet.EndsAfter(new DateTime(2027, 11, 7, 8, 15, 0, DateTimeKind.Utc), Denver));
    }

    [Fact]
    public void Half_a_setting_or_an_empty_stretch_is_no_quiet()
    {
        Assert.Null(QuietHours.Of(new(22, 0), null));
        Assert.Null(QuietHours.Of(null, new(6, 0)));
        Assert.Null(QuietHours.Of(new(22, 0), new(22, 0)));
        Assert.Equal(new QuietHours(new(22, 0), new(6, 0)), QuietHours.Of(new(22, 0), new(6, 0)));
    }

    private static DateTime? At(string? local)
    {
        if (local is null)
        {
            return null;
        }

        var when = DateTime.Parse(local, System.Globalization.CultureInfo.InvariantCulture);
        return Denver.Utc(DateOnly.FromDateTime(when), TimeOnly.FromDateTime(when));
    }
}
