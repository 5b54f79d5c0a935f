using System.Net;
using System.Text.RegularExpressions;
using Microsoft.EntityFrameworkCore;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Process.Tests;

/// <summary>The first minute of a portal: what it seeds, what it prints, and what stops it.</summary>
public partial class StartTests
{
    [Theory, BothDatabases]
    public async Task A_production_start_on_an_empty_database_seeds_nothing_and_prints_no_demo_sign_in(DatabaseKind kind)
    {
        await using var database = await TestDatabase.CreateEmptyAsync(kind);
        using var installation = Installation.On(database, "Production");

        using var portal = await installation.ServeAsync();

        await portal.LineAsync(line => line.Contains("Now listening on", StringComparison.Ordinal));
        await using var db = database.CreateDbContext();
        Assert.False(await db.Programmes.AnyAsync());
        Assert.False(await db.Users.AnyAsync());
        Assert.DoesNotContain(portal.Lines, line => line.Contains("demo", StringComparison.OrdinalIgnoreCase));
    }

    [Fact]
    public async Task A_production_start_on_the_default_file_seeds_nothing_either()
    {
        using var installation = Installation.Unconfigured();
        installation.Settings["ASPNETCORE_ENVIRONMENT"] = "Production";

        using var portal = await installation.ServeAsync();

        await portal.LineAsync(line => line.Contains("Now listening on", StringComparison.Ordinal));
        await using var db = OpenDefaultFile(installation);
        Assert.False(await db.Users.AnyAsync());
        Assert.DoesNotContain(portal.Lines, line => line.Contains("demo", StringComparison.OrdinalIgnoreCase));
    }

    [Fact]
    public async Task A_development_start_without_configuration_seeds_the_demo_once_and_prints_how_to_get_in()
    {
        using var installation = Installation.Unconfigured();
        using (var portal = await installation.ServeAsync())
        {
            await portal.LineAsync(line => line == $"Tankside answers on {portal.Client.BaseAddress!.ToString().TrimEnd('/')}");
            Assert.Equal(6, portal.Lines.Count(line => DemoSignIn().IsMatch(line)));
            Assert.Contains(portal.Lines, line => line.StartsWith("demo sign-in: coordinator ", StringComparison.Ordinal));
            var label = portal.Lines.First(line => DemoRoomCode().IsMatch(line)).Split(' ')[^1];
            Assert.Equal(HttpStatusCode.OK, (await portal.Client.GetAsync(new Uri(label).PathAndQuery)).StatusCode);
        }

        using var again = await installation.ServeAsync();

        await again.LineAsync(line => line.StartsWith("demo sign-in: ", StringComparison.Ordinal));
        await using var db = OpenDefaultFile(installation);
        Assert.Equal(48, await db.Tanks.CountAsync());
    }

    [Theory]
    [InlineData("Tankside__Database", "Oracle", "Tankside:Database")]
    [InlineData("Tankside__Database", "PostgreSQL", "ConnectionStrings:Tankside")]
    [InlineData("Tankside__PublicUrl", "x", "Tankside:PublicUrl")]
    [InlineData("Tankside__Mail__Port", "many", "Tankside:Mail:Port")]
    [InlineData("Tankside__Metrics__Listen", "everywhere", "Tankside:Metrics:Listen")]
    [InlineData("Tankside__DemoSeason", "perhaps", "Tankside:DemoSeason")]
    public async Task A_wrong_setting_stops_the_start_and_is_named(string variable, string value, string key)
    {
        using var installation = Installation.Unconfigured();
        installation.Settings[variable] = value;

        var answer = await installation.RunAsync();

        Assert.Equal(1, answer.ExitCode);
        Assert.Contains(key, answer.Trouble, StringComparison.Ordinal);
        Assert.Empty(answer.Output);
    }

    private static HatcheryDb OpenDefaultFile(Installation installation)
    {
        var options = new DbContextOptionsBuilder<HatcheryDb>();
        Databases.Use(options, new DatabaseChoice(DatabaseKind.Sqlite, $"Data Source={Path.Combine(installation.Folder, "data", "tankside.db")};Pooling=False"));
        return new HatcheryDb(options.Options);
    }

    [GeneratedRegex("^demo sign-in: [a-z-]+ [a-z0-9]+@[a-z.-]+ .{12,}$")]
    private static partial Regex DemoSignIn();

    [GeneratedRegex("^demo room code: A[0-9]{3} https?://[^ ]+/t/[^ ]+$")]
    private static partial Regex DemoRoomCode();
}
