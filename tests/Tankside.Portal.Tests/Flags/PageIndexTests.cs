using System.Text.RegularExpressions;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Flags;

/// <summary>
/// Every question that a page asks of a table that grows with the season has an index that answers it. A small table is read through
/// whatever indexes there are, so PostgreSQL is told to do that only where it cannot do otherwise, and to say what it did.
/// </summary>
public partial class PageIndexTests
{
    /// <summary>What is kept of a person is looked for in every table there is, a few times a year.</summary>
    private static readonly string[] ReadThrough = ["/me/data", "/me/data.json"];

    /// <summary>It holds the open flags and no others: whoever wants them all may read it from end to end.</summary>
    private const string OpenFlags = "ix_flags_one_open";

    [PostgresFact]
    public async Task No_page_reads_through_a_table_that_grows_with_the_season()
    {
        await using var portal = await CountedPortal.CreateAsync(DatabaseKind.PostgreSQL, 8);
        await portal.ExplainAsync();
        var (wrong, plans) = (new SortedSet<string>(), 0);
        foreach (var address in CountedPortal.Addresses().Except(ReadThrough))
        {
            foreach (var plan in await portal.PlansAsync(address))
            {
                plans++;
                wrong.UnionWith(ReadWhole(plan).Select(table => $"{address}: {table} by {Shortened(plan)}"));
            }
        }

        Assert.True(wrong.Count == 0, string.Join('\n', wrong));
        Assert.True(plans > 400, $"Only {plans} plans were told.");
    }

    /// <summary>The tables of a plan that are read from end to end, by themselves or by an index that nothing is looked up in.</summary>
    private static IEnumerable<string> ReadWhole(string plan)
    {
        foreach (var node in plan.Split("->"))
        {
            if (Scan().Match(node) is { Success: true } scan && !node.Contains("Index Cond:", StringComparison.Ordinal) && !scan.Value.Contains(OpenFlags, StringComparison.Ordinal))
            {
                yield return scan.Groups["table"].Value;
            }
        }
    }

    private static string Shortened(string plan)
    {
        var text = string.Join(' ', plan.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
        return text.Length > 900 ? text[..900] : text;
    }

    [GeneratedRegex(@"(Seq Scan|Index Scan using \w+|Index Only Scan using \w+|Index Scan Backward using \w+) on (?<table>readings\w*|tank_days|day_facts|unjudged_facts|ledger|flags|flag_events|outgoing_letters|changes|tank_photos|receipts)\b")]
    private static partial Regex Scan();
}
