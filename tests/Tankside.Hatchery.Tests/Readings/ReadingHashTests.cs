using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;

namespace Tankside.Hatchery.Tests.Readings;

public class ReadingHashTests
{
    private static readonly DateTime At = new(2027, 1, 20, 18, 0, 0, DateTimeKind.Utc);

    private static readonly Guid Earlier = new("0193a000-0000-7000-8000-000000000001");

    private static string Of(string typed)
    {
        Assert.True(WaterTemperature.TryRead(typed, out var value, out _));
        return ReadingHash.Of(At, new Observation { WaterC = value }, null);
    }

    [Theory]
    [InlineData("9.40", "9.4")]
    [InlineData("9,4", "9.4")]
    [InlineData(" 9.4 ", "9.4 C")]
    public void The_same_value_written_otherwise_is_the_same_content(string one, string other) => Assert.Equal(Of(one), Of(other));

    [Fact]
    public void Any_other_content_is_another_hash()
    {
        var seen = new Observation { WaterC = 9.4 };
        string[] hashes =
        [
            ReadingHash.Of(At, seen, null),
            ReadingHash.Of(At, seen with { WaterC = 9.41 }, null),
            ReadingHash.Of(At, seen with { WaterC = null, RoomC = 9.4 }, null),
            ReadingHash.Of(At, seen with { DeadEggs = 0 }, null),
            ReadingHash.Of(At, seen with { Moving = false }, null),
            ReadingHash.Of(At, seen with { Note = "" }, null),
            ReadingHash.Of(At.AddSeconds(1), seen, null),
            ReadingHash.Of(At, seen, Earlier),
        ];

        Assert.Distinct(hashes);
        Assert.All(hashes, h => Assert.Matches("^[0-9a-f]{32}$", h));
    }

    [Theory]
    [InlineData(ReadingState.Accepted, false, true)]
    [InlineData(ReadingState.Accepted, true, false)]
    [InlineData(ReadingState.Asked, false, false)]
    [InlineData(ReadingState.Withdrawn, false, false)]
    public void Only_an_accepted_reading_that_nothing_corrects_counts(ReadingState state, bool corrected, bool counts) =>
        Assert.Equal(counts, new Reading
        {
            State = state,
            CorrectedBy = corrected ? Earlier : null,
            Seen = new Observation(),
            ContentHash = "",
            TypedUnit = TemperatureUnit.C,
        }.Counts);
}
