using System.Reflection;
using Tankside.Hatchery.Flags;
using Tankside.Science.Eggs;

namespace Tankside.Hatchery.Tests.Guards;

/// <summary>What the two inner rooms lean on: the framework, and for the rules the science. No database, no web, no logger.</summary>
public class RoomTests
{
    private static readonly string Framework = Path.GetDirectoryName(typeof(object).Assembly.Location)!;

    [Fact]
    public void Science_leans_on_nothing_but_the_framework() => Assert.Empty(Strangers(typeof(Species).Assembly));

    [Fact]
    public void Hatchery_leans_on_nothing_but_the_framework_and_science() =>
        Assert.Empty(Strangers(typeof(Assessment).Assembly, "Tankside.Science"));

    [Fact]
    public void A_room_that_leans_on_something_else_is_found()
    {
        var here = Assembly.GetExecutingAssembly();

        Assert.Contains("xunit.core", Strangers(here));
        Assert.Contains("Tankside.Science", Strangers(here));
    }

    private static IEnumerable<string> Strangers(Assembly room, params string[] allowed) => room.GetReferencedAssemblies()
        .Select(a => a.Name!)
        .Where(name => !allowed.Contains(name) && !File.Exists(Path.Combine(Framework, name + ".dll")));
}
