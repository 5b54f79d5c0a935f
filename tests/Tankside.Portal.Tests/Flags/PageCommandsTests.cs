using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Flags;

/// <summary>A page asks the database as often for three times as many tanks: never once for each row.</summary>
public class PageCommandsTests
{
    /// <summary>Commands that a larger programme may cost more, for something that the smaller one happens not to have.</summary>
    private const int ByChance = 4;

    private const int Few = 8, Many = 28;

    /// <summary>What the two pages of the morning may ask, once the programme's own ways are known.</summary>
    private const int Most = 12;

    [Theory, BothDatabases]
    public async Task No_page_asks_the_database_once_for_each_tank(DatabaseKind kind)
    {
        await using var few = await CountedPortal.CreateAsync(kind, Few);
        await using var many = await CountedPortal.CreateAsync(kind, Many);
        var wrong = new List<string>();
        var seen = 0;
        foreach (var address in CountedPortal.Addresses())
        {
            var (small, large) = (await few.CommandsAsync(address), await many.CommandsAsync(address));
            seen += small > 0 ? 1 : 0;
            if (large > small + ByChance)
            {
                wrong.Add($"{address}: {small} commands for {Few} tanks, {large} for {Many}");
            }
        }

        foreach (var address in new[] { "/round", "/tanks/S00003" })
        {
            var asked = await many.ListAsync(address);
            if (asked.Count is 0 or > Most)
            {
                wrong.Add($"{address}: {asked.Count} commands{string.Concat(asked.Select(c => "\n  " + string.Join(' ', c.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries))))}");
            }
        }

        Assert.True(wrong.Count == 0, string.Join('\n', wrong));
        Assert.True(seen > 40, $"Only {seen} pages asked anything.");
    }
}
