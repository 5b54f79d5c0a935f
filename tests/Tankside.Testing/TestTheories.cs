using System.Reflection;
using Tankside.Storage;
using Xunit.Sdk;

namespace Tankside.Testing;

/// <summary>A theory's rows: the test runs on SQLite and on PostgreSQL. Without a PostgreSQL server only the first is left.</summary>
/// <remarks>That the second half is missing is told by one skipped <see cref="PostgresFactAttribute"/> in each test project.</remarks>
[AttributeUsage(AttributeTargets.Method)]
public sealed class BothDatabasesAttribute : DataAttribute
{
    public override IEnumerable<object[]> GetData(MethodInfo testMethod)
    {
        yield return [DatabaseKind.Sqlite];
        if (Missing.Skips(PostgresServer.WhyUnavailable) is null)
        {
            yield return [DatabaseKind.PostgreSQL];
        }
    }
}

/// <summary>A test that needs PostgreSQL; skipped with what to install where there is none.</summary>
[AttributeUsage(AttributeTargets.Method)]
public sealed class PostgresFactAttribute : FactAttribute
{
    public PostgresFactAttribute() => Skip = Missing.Skips(PostgresServer.WhyUnavailable);
}

/// <summary>A test that needs a primary and a replica; skipped with what to install where they cannot be started.</summary>
[AttributeUsage(AttributeTargets.Method)]
public sealed class PairFactAttribute : FactAttribute
{
    public PairFactAttribute() => Skip = Missing.Skips(PostgresPair.WhyUnavailable);
}

/// <summary>A test that needs a browser; skipped with what to install where there is none.</summary>
[AttributeUsage(AttributeTargets.Method)]
public sealed class BrowserFactAttribute : FactAttribute
{
    public BrowserFactAttribute() => Skip = Missing.Skips(Chromium.WhyUnavailable);
}

/// <summary>A theory that needs a browser; skipped with what to install where there is none.</summary>
[AttributeUsage(AttributeTargets.Method)]
public sealed class BrowserTheoryAttribute : TheoryAttribute
{
    public BrowserTheoryAttribute() => Skip = Missing.Skips(Chromium.WhyUnavailable);
}

/// <summary>A theory that needs nginx; skipped with what to install where there is none.</summary>
[AttributeUsage(AttributeTargets.Method)]
public sealed class NginxTheoryAttribute : TheoryAttribute
{
    public NginxTheoryAttribute() => Skip = Missing.Skips(Nginx.WhyUnavailable);
}

/// <summary>A fact that needs nginx; skipped with what to install where there is none.</summary>
[AttributeUsage(AttributeTargets.Method)]
public sealed class NginxFactAttribute : FactAttribute
{
    public NginxFactAttribute() => Skip = Missing.Skips(Nginx.WhyUnavailable);
}
