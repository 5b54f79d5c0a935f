using System.Text.RegularExpressions;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Storage;
using Tankside.Testing;
using static Tankside.Portal.Tests.Readings.Sent;

namespace Tankside.Portal.Tests.Flags.Rehearsals;

/// <summary>A rehearsal leaves its own row and nothing else: whoever reads the programme reads what stood there before.</summary>
public partial class NothingOfItIsRealTests
{
    [Theory, BothDatabases]
    public async Task Totals_round_tanks_and_the_API_are_after_rehearsals_what_they_were_before(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        await host.AcceptAsync(Seen(world.One.Tanks[0], host.Now.AddMinutes(-20), new Observation { WaterC = 15.8, ChillerRunning = false, DeadEggs = 2 }));
        await host.SweepAsync();
        var (lead, coordinator) = (await host.ClientAs(Role.ProgrammeLead, world.One), await host.ClientAs(Role.Coordinator, world.One));
        var api = host.ClientWithKey(world.One.CoordinatorKey);
        var (before, rows) = (await EverythingReadAsync(lead, api, world), await RowsAsync(host));
        Assert.Contains("2 tanks need you", before["/round"], StringComparison.Ordinal);

        foreach (var (client, seed) in new[] { (coordinator, 4711), (coordinator, 12) })
        {
            var address = await client.StartAsync($"{seed}");
            foreach (var tank in Rehearsing.Morning(seed).Troubled.Take(4))
            {
                await client.CallAsync(address, tank.Code);
            }

            await client.MoveAsync(address, "undo");
            await client.MoveAsync(address, "finish");
        }

        await host.SweepAsync();
        var after = await EverythingReadAsync(lead, api, world);
        Assert.All(before, page => Assert.Equal(page.Value, after[page.Key]));
        var changed = await RowsAsync(host);
        Assert.Equal(2, changed["rehearsals"] - rows["rehearsals"]);
        Assert.Equal(rows.Where(r => r.Key != "rehearsals"), changed.Where(r => r.Key != "rehearsals"));
    }

    private static async Task<Dictionary<string, string>> EverythingReadAsync(HttpClient lead, HttpClient api, TestWorld world)
    {
        var season = world.One.Season.Name;
        var read = new Dictionary<string, string> { ["csv"] = Convert.ToHexString(await lead.GetByteArrayAsync($"/totals/{season}.csv")) };
        foreach (var address in new[] { "/api/v1/tanks", "/api/v1/flags", "/api/v1/flags?state=settled", $"/api/v1/seasons/{season}/totals", $"/api/v1/tanks/{world.One.Tanks[0].Code}/forecast" })
        {
            read.Add(address, Convert.ToHexString(await api.GetByteArrayAsync(address)));
        }

        foreach (var address in new[] { "/", "/round", "/tanks", $"/tanks/{world.One.Tanks[0].Code}", "/ledger", "/totals", "/releases", "/season" })
        {
            read.Add(address, OncePerAnswer().Replace(await lead.GetStringAsync(address), ""));
        }

        return read;
    }

    /// <summary>How many rows every table holds.</summary>
    private static async Task<Dictionary<string, long>> RowsAsync(PortalHost host)
    {
        await using var db = host.OpenDb();
        var rows = new Dictionary<string, long>();
        foreach (var table in db.Model.GetEntityTypes().Select(e => e.GetTableName()!).Distinct())
        {
            var count = string.Concat("select count(*) as \"Value\" from \"", table, "\"");
            rows.Add(table, (await db.Database.SqlQueryRaw<long>(count).ToListAsync())[0]);
        }

        return rows;
    }

    /// <summary>What every answer of the portal has anew: tokens, nonces, the ids of forms to be sent and the marks of a living page.</summary>
    [GeneratedRegex("(?<=name=\"Input.Id\" value=\")[^\"]*|(?<=name=\"__RequestVerificationToken\" value=\")[^\"]*|(?<=nonce=\")[^\"]*|<!--Blazor.*?-->", RegexOptions.Singleline)]
    private static partial Regex OncePerAnswer();
}
