using System.Net;
using System.Net.Http.Headers;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Portal.Demo;
using Tankside.Portal.Tests;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Process.Tests;

/// <summary>A backup taken beside a working portal gives back everything: the account byte for byte, the ledger line for line, every door.</summary>
public class RestoreDrillTests(SeededDatabases seeded) : IClassFixture<SeededDatabases>
{
    [Theory, BothDatabases]
    public async Task What_was_backed_up_while_readings_arrive_is_whole_and_what_was_backed_up_at_rest_comes_back_byte_for_byte(DatabaseKind kind)
    {
        using var installation = await seeded.InstallAsync(kind);
        var source = await seeded.OfAsync(kind);
        var key = await KeyAsync(source, ApiKeyRole.Coordinator);
        var loggers = new LoggerStream(await KeyAsync(source, ApiKeyRole.Logger));
        string[] account;
        using (var portal = await installation.ServeAsync())
        {
            var before = 0;
            await loggers.SendWhileAsync(portal, async () =>
            {
                before = loggers.Answered.Count;
                (await installation.RunAsync("backup", "--out", "beside.zip")).Good();
            });
            Assert.InRange(before, 1, loggers.Answered.Count - 1);
            await AssertWholeAsync(kind, Path.Combine(installation.Folder, "beside.zip"), loggers, [.. loggers.Answered.Take(before)]);
            if (kind == DatabaseKind.Sqlite)
            {
                Assert.Contains("a portal runs", (await installation.RunAsync("restore", "--from", "beside.zip", "--replace")).Trouble, StringComparison.Ordinal);
            }

            await AllJudgedAsync(source);
            (await installation.RunAsync("backup", "--out", "at-rest.zip")).Good();
            account = await AccountAsync(portal, key, source);
        }

        await using var target = await TestDatabase.CreateEmptyAsync(kind);
        using var restored = Installation.On(target);
        (await restored.RunAsync("restore", "--from", Path.Combine(installation.Folder, "at-rest.zip"))).Good();
        using var again = await restored.ServeAsync();

        Assert.Equal(account, await AccountAsync(again, key, target));
        Assert.Equal(await LedgerAsync(source), await LedgerAsync(target));
        await AssertDoorsOpenAsync(again, target);
    }

    private static async Task<string> KeyAsync(TestDatabase database, ApiKeyRole role)
    {
        var key = Guid.NewGuid().ToString("n");
        await using var db = database.CreateDbContext();
        db.Add(new ApiKey
        {
            Id = Guid.NewGuid(),
            ProgrammeId = await db.Programmes.Select(p => p.Id).SingleAsync(),
            Role = role,
            SecretHash = Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(key))),
            AllTanks = true,
            IssuedAt = DateTime.UtcNow,
        });
        await db.SaveChangesAsync();
        return key;
    }

    /// <summary>Every batch that was answered before the backup began is in it; a later one is whole or not there at all.</summary>
    private static async Task AssertWholeAsync(DatabaseKind kind, string backup, LoggerStream loggers, SentBatch[] before)
    {
        await using var target = await TestDatabase.CreateEmptyAsync(kind);
        using var restored = Installation.On(target);
        (await restored.RunAsync("restore", "--from", backup)).Good();
        await using var db = target.CreateDbContext();
        var stored = (await db.Readings.Select(r => r.SenderId).ToListAsync()).ToHashSet();
        var lines = await db.Ledger.Where(e => e.Reading != null).Select(e => e.Reading!.Value).ToListAsync();
        Assert.All(before, batch => Assert.Superset(batch.Ids.ToHashSet(), stored));
        Assert.All(loggers.Batches, batch => Assert.Contains(batch.Ids.Count(stored.Contains), new[] { 0, LoggerStream.Size }));
        Assert.Equal(loggers.Batches.SelectMany(b => b.Ids).Where(stored.Contains).Order(), lines.Where(loggers.Batches.SelectMany(b => b.Ids).ToHashSet().Contains).Order());
    }

    private static async Task AssertDoorsOpenAsync(ServedPortal portal, TestDatabase database)
    {
        await using var db = database.CreateDbContext();
        var label = await db.RoomCodes.Where(c => c.RevokedAt == null).Select(c => c.Code).FirstAsync();
        using var client = new HttpClient(new HttpClientHandler { AllowAutoRedirect = false }) { BaseAddress = portal.Client.BaseAddress };
        Assert.Equal(HttpStatusCode.OK, (await client.GetAsync($"/t/{label}")).StatusCode);
        var coordinator = await db.Memberships.Where(m => m.Role == Role.Coordinator).Join(db.Users, m => m.PersonId, u => u.Id, (_, u) => u.Email!).FirstAsync();
        await client.SignInAsync(coordinator, AlderBasin.Password);
        Assert.Contains("Morning round", await client.GetStringAsync("/round"), StringComparison.Ordinal);
    }

    /// <summary>The season's files as they are handed to the agency.</summary>
    private static async Task<string[]> AccountAsync(ServedPortal portal, string key, TestDatabase database)
    {
        await using var db = database.CreateDbContext();
        var season = Uri.EscapeDataString(await db.Seasons.OrderByDescending(s => s.StartsOn).Select(s => s.Name).FirstAsync());
        List<string> files = [];
        foreach (var type in new[] { "text/csv", "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet" })
        {
            using var request = new HttpRequestMessage(HttpMethod.Get, $"/api/v1/seasons/{season}/totals");
            request.Headers.Accept.Add(new MediaTypeWithQualityHeaderValue(type));
            request.Headers.Authorization = new AuthenticationHeaderValue("Bearer", key);
            using var answer = await portal.Client.SendAsync(request);
            files.Add(Convert.ToBase64String(await answer.EnsureSuccessStatusCode().Content.ReadAsByteArrayAsync()));
        }

        return [.. files];
    }

    private static async Task AllJudgedAsync(TestDatabase database)
    {
        for (var deadline = DateTime.UtcNow.AddSeconds(30); ; await Task.Delay(50))
        {
            await using var db = database.CreateDbContext();
            if (!await db.UnjudgedFacts.AnyAsync())
            {
                return;
            }

            Assert.True(DateTime.UtcNow < deadline, "Facts wait for a judge.");
        }
    }

    private static async Task<string> LedgerAsync(TestDatabase database)
    {
        await using var db = database.CreateDbContext();
        var lines = await db.Ledger.AsNoTracking().OrderBy(l => l.Id).ToListAsync();
        Assert.NotEmpty(lines);
        return JsonSerializer.Serialize(lines);
    }
}
