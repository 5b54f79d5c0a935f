using Tankside.Hatchery.Readings;

namespace Tankside.Hatchery.Tests.Readings;

public class SheetReadingIdTests
{
    private static readonly Guid Tank = new("0b1c2d3e-4f50-4162-8374-8596a7b8c9da");

    [Fact]
    public void The_same_row_has_the_same_id_and_any_difference_another()
    {
        var id = SheetReadingId.Of(Tank, "00ff", 0, 0);

        Assert.Equal(id, SheetReadingId.Of(Tank, "00ff", 0, 0));
        Assert.Equal(5, new[]
        {
            id, SheetReadingId.Of(Guid.Empty, "00ff", 0, 0), SheetReadingId.Of(Tank, "00fe", 0, 0), SheetReadingId.Of(Tank, "00ff", 1, 0), SheetReadingId.Of(Tank, "00ff", 0, 1),
        }.Distinct().Count());
    }

    [Fact]
    public void The_id_says_that_it_was_made_by_a_rule() =>
        Assert.Matches("^[0-9a-f]{8}-[0-9a-f]{4}-8[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$", SheetReadingId.Of(Tank, "00ff", 3, 2).ToString());
}
