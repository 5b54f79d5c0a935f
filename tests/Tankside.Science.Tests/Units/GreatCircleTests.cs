using Tankside.Science.Units;

namespace Tankside.Science.Tests.Units;

public class GreatCircleTests
{
    /// <summary>
    /// Nashville to Los Angeles: 2887.26 km on a sphere of 6372.8 km, the worked example by which the haversine formula is taught in many
    /// languages (Rosetta Code, "Haversine formula"; from memory). Scaled to the mean radius used here.
    /// </summary>
    [Fact]
    public void The_taught_example_comes_out() =>
        Assert.Equal(2887.2599506071106 * 6371.0088 / 6372.8, GreatCircle.Km(new(36.12, -86.67), new(33.94, -118.40)), 6);

    [Fact]
    public void A_quarter_of_the_meridian_is_a_quarter_of_the_circle() =>
        Assert.Equal(Math.PI / 2 * 6371.0088, GreatCircle.Km(new(0, 12), new(90, 12)), 6);

    [Fact]
    public void There_and_back_are_the_same_way_and_nowhere_is_no_way()
    {
        GeoPoint a = new(44.1, -113.2), b = new(43.7, -113.9);

        Assert.Equal(GreatCircle.Km(a, b), GreatCircle.Km(b, a), 12);
        Assert.Equal(0, GreatCircle.Km(a, a));
    }

    [Theory]
    [InlineData(91.0, 0.0)]
    [InlineData(0.0, -181.0)]
    [InlineData(null, 0.0)]
    [InlineData(0.0, null)]
    public void What_is_not_on_the_globe_is_no_place(double? latitude, double? longitude) => Assert.Null(GeoPoint.Of(latitude, longitude));
}
