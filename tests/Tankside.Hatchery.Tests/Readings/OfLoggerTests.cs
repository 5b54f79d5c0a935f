using System.Reflection;
using Tankside.Hatchery.Readings;

namespace Tankside.Hatchery.Tests.Readings;

/// <summary>What a logger can say is told from what only a person sees, for everything that can be seen, and for what will be added.</summary>
public class OfLoggerTests
{
    private static readonly string[] Measured = [nameof(Observation.WaterC), nameof(Observation.RoomC), nameof(Observation.ChillerRunning)];

    public static TheoryData<string> Properties() => [.. typeof(Observation).GetProperties().Where(p => p.CanWrite).Select(p => p.Name)];

    [Theory]
    [MemberData(nameof(Properties))]
    public void Only_temperatures_and_the_chiller_are_a_loggers(string name)
    {
        var property = typeof(Observation).GetProperty(name, BindingFlags.Public | BindingFlags.Instance)!;
        var type = Nullable.GetUnderlyingType(property.PropertyType) ?? property.PropertyType;
        var seen = new Observation { WaterC = 9, RoomC = 20, ChillerRunning = true };
        property.SetValue(seen, type == typeof(string) ? "cloudy" : Activator.CreateInstance(type));

        Assert.Equal(Measured.Contains(name), seen.IsOfLogger);
    }

    [Fact]
    public void Nothing_at_all_is_nothing_that_a_person_saw() => Assert.True(new Observation().IsOfLogger);
}
