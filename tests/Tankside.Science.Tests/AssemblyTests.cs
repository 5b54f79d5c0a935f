using Tankside.Science.Eggs;

namespace Tankside.Science.Tests;

public class AssemblyTests
{
    [Fact]
    public void Science_refers_to_nothing_but_the_framework() =>
        Assert.All(typeof(StageModels).Assembly.GetReferencedAssemblies(),
            name => Assert.StartsWith("System", name.Name, StringComparison.Ordinal));
}
