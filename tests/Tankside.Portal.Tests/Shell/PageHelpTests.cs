using Microsoft.AspNetCore.Components.Endpoints;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using Tankside.Hatchery.People;
using Tankside.Portal.Shell.Help;
using Tankside.Portal.Tests.Access;
using Tankside.Storage;

namespace Tankside.Portal.Tests.Shell;

/// <summary>Every page says what it is for, and a tour leads through those of each role.</summary>
public class PageHelpTests
{
    [Fact]
    public async Task Every_page_says_what_it_is_for_in_the_languages_of_those_who_open_it()
    {
        await using var host = await PortalHost.CreateAsync(DatabaseKind.Sqlite);
        using var started = host.Anonymous();
        var pages = host.Services.GetRequiredService<IEnumerable<EndpointDataSource>>().SelectMany(s => s.Endpoints).OfType<RouteEndpoint>()
            .Where(e => e.Metadata.GetMetadata<ComponentTypeMetadata>() is not null).Select(e => e.RoutePattern.RawText!).Distinct().ToList();
        Caller[] spanish = [Caller.Nobody, Caller.Teacher, Caller.KitHand];

        Assert.True(pages.Count > 100, $"only {pages.Count} pages");
        Assert.Equal([], pages.Where(p => Purposes.Of(p, "en") is null));
        Assert.Equal([], pages.Where(p => AddressTable.Rows.Any(r => r.Pattern == p && r.Method == "GET" && spanish.Any(c => r.Expected(c) == 'y')) && Purposes.Of(p, "es") == Purposes.Of(p, "en")));
    }

    [Fact]
    public async Task A_tour_leads_each_role_through_pages_it_may_open_and_back()
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        Assert.Equal(Enum.GetNames<Role>().Order(), Tours.Roles.Order());
        foreach (var role in Enum.GetValues<Role>())
        {
            var client = await host.ClientAs(role, world.One);
            var walk = Tours.Of(role.ToString());
            for (var step = 1; step <= walk.Count; step++)
            {
                var page = await client.GetStringAsync(Tours.At(role.ToString(), step));
                Assert.Contains($"page {step} of {walk.Count}.", page, StringComparison.Ordinal);
                Assert.Equal(step < walk.Count, page.Contains("Next page", StringComparison.Ordinal));
            }

            Assert.DoesNotContain("Tour, page", await client.GetStringAsync("/?tour=2"), StringComparison.Ordinal);
        }
    }
}
