using Microsoft.AspNetCore.Routing;
using Microsoft.AspNetCore.StaticAssets;
using Microsoft.Extensions.DependencyInjection;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Access;

/// <summary>Every address tried as every role and as nobody.</summary>
public class AddressTableTests
{
    [Fact]
    public async Task Every_address_of_the_portal_stands_in_the_table_and_no_other()
    {
        await using var host = await PortalHost.CreateAsync(DatabaseKind.Sqlite, new PortalHostSettings { Environment = "Production" });
        using var started = host.Anonymous();

        var mapped = host.Services.GetRequiredService<IEnumerable<EndpointDataSource>>().SelectMany(s => s.Endpoints).SelectMany(Entries).Distinct();

        Assert.Equal(mapped.Order(StringComparer.Ordinal), AddressTable.Rows.Select(r => Entry(r.Pattern, r.Method)).Distinct().Order(StringComparer.Ordinal));
    }

    [Theory, BothDatabases]
    public async Task Every_address_answers_everybody_as_the_table_says(DatabaseKind kind)
    {
        await using var callers = await Callers.GatherAsync(kind);
        var wrong = new List<string>();
        foreach (var row in AddressTable.Rows)
        {
            foreach (var caller in Enum.GetValues<Caller>())
            {
                if (row.WithoutToken is not null)
                {
                    await CompareAsync(row, caller, withToken: false, row.ExpectedWithoutToken(caller));
                }

                await CompareAsync(row, caller, withToken: true, row.Expected(caller));
            }
        }

        Assert.Empty(wrong);

        async Task CompareAsync(AddressRow row, Caller caller, bool withToken, char expected)
        {
            using var answer = await callers.TryAsync(caller, row, withToken);
            if (Callers.Letter(answer) is var letter && letter != expected.ToString())
            {
                wrong.Add($"{row} {(withToken ? "" : "without a token ")}as {caller}: {letter}, not {expected}");
            }
        }
    }

    /// <summary>Static files are one entry. What takes any method has the entry of the one that the table tries.</summary>
    private static IEnumerable<string> Entries(Microsoft.AspNetCore.Http.Endpoint endpoint)
    {
        // With a build that was not published, files are served by a fallback besides.
        if (endpoint.Metadata.GetMetadata<StaticAssetDescriptor>() is not null || endpoint.DisplayName is { } name && name.StartsWith("Fallback {**path:file}", StringComparison.Ordinal))
        {
            return [Entry(AddressTable.Files, "GET")];
        }

        var pattern = ((RouteEndpoint)endpoint).RoutePattern.RawText!;
        var methods = endpoint.Metadata.GetMetadata<HttpMethodMetadata>()?.HttpMethods ?? [];
        return methods.Count > 0 ? methods.Select(m => Entry(pattern, m))
            : AddressTable.Rows.Where(r => r.Pattern == pattern).Select(r => Entry(pattern, r.Method)).DefaultIfEmpty(Entry(pattern, "any"));
    }

    private static string Entry(string pattern, string method) => $"{pattern} {method}";
}
