using System.Globalization;
using System.Text.RegularExpressions;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Accounts;
using Tankside.Portal.Flags;
using Tankside.Portal.Flags.Reckoned;
using Tankside.Portal.Shell;
using Tankside.Portal.Tests.Readings;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Flags;

/// <summary>The numbers of a tank's page open to what they were reckoned from.</summary>
public partial class TankNumberTests
{
    [Theory, BothDatabases]
    public async Task The_dates_the_fish_left_and_the_closed_days_open_to_their_inputs(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        await ReadAsync(host, world, new Observation { Moving = true });

        var page = await (await host.ClientAs(Role.Teacher, world.One)).ReadAsync("/tanks/A001");

        // Twelve days read, the twelfth is today and is not over; nineteen days have passed since the eggs came.
        Assert.Contains("Days since with a temperature 11 of 19 Their mean 50.4 °F (10.2 °C) Days still to come, taken at 50.9 °F (10.5 °C)", page, StringComparison.Ordinal);
        Assert.Contains("docs/science/development.md", page, StringComparison.Ordinal);
        Assert.Contains("Came in 150 Died, moved out, sampled or released 2 Left by these lines 148 Last count of the living not counted yet Still in the tank 148 Not explained 0", page, StringComparison.Ordinal);
        Assert.Contains("Looked at as cold from 39.2 °F (4 °C) Looked at as warm from 54 °F (12.2 °C)", page, StringComparison.Ordinal);
        Assert.Contains("cold: Peterson et al. 1977; Murray & McPhail 1988", page, StringComparison.Ordinal);
        Assert.Contains("Days with a look 12", page, StringComparison.Ordinal);
        Assert.DoesNotContain("/settings/about", page, StringComparison.Ordinal);

        var now = await NowAsync(host, world);
        Assert.All(TankNumbers.Leaving(now.Left!, now, Say.InEnglish).Inputs.Concat(TankNumbers.NotKnown(now.NotKnown!, now, Say.InEnglish).Inputs),
            input => Assert.Contains($"{input.Name} {input.Value.Replace('\u00A0', ' ')}", page, StringComparison.Ordinal));
    }

    [Theory, BothDatabases]
    public async Task The_food_is_the_product_that_its_opening_says(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        await ReadAsync(host, world, new Observation { Hatched = Share.All, Swimming = Share.Half });

        var page = await (await host.ClientAs(Role.Teacher, world.One)).ReadAsync("/tanks/A001");

        var food = Food().Match(page);
        Assert.True(food.Success);
        double Value(int group) => double.Parse(food.Groups[group].Value, CultureInfo.InvariantCulture);
        Assert.Equal(Value(2), Value(3));
        Assert.Equal(Value(1), Value(3) * Value(4) * Value(5) / 100, 0.2);
        Assert.Contains("Swim-up, seen Wed 3 February", page, StringComparison.Ordinal);
        Assert.Contains("Leitritz and Lewis 1980", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_reader_of_Spanish_opens_them_in_Spanish_and_a_coordinator_finds_the_settings()
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        await ReadAsync(host, world, new Observation { Moving = true });
        await host.SeedAsync(db => db.Users.Single(p => p.Id == world.One.People[Role.Teacher].Id).Language = "es");

        var spanish = await (await host.ClientAs(Role.Teacher, world.One)).ReadAsync("/tanks/A001");
        var html = await (await host.ClientAs(Role.Coordinator, world.One)).GetStringAsync("/tanks/A001");

        Assert.Contains("Entraron 150", spanish, StringComparison.Ordinal);
        Assert.Contains("Días desde entonces con temperatura 11 de 19", spanish, StringComparison.Ordinal);
        Assert.Contains("Fuente: docs/rules.md, Safe to leave?", spanish, StringComparison.Ordinal);
        Assert.Contains("href=\"/settings/about/leaving\"", html, StringComparison.Ordinal);
    }

    private static async Task ReadAsync(PortalHost host, TestWorld world, Observation today)
    {
        await host.AcceptAsync([.. Enumerable.Range(0, 12).Select(d => Sent.Water(world.One.Tanks[0], host.Now.AddDays(-d), 10 + (d % 3 * 0.2)) is var sent && d == 0 ? sent with { Seen = today } : sent)]);
        await host.JudgeAsync();
    }

    private static async Task<OurTankNow> NowAsync(PortalHost host, TestWorld world) => (await host.CallAsync<OurTank, OurTankNow?>(tanks => tanks.LoadAsync(
        "A001", new CurrentUser(world.One.People[Role.Teacher].Id, world.One.Programme.Id, Role.Teacher, world.One.Schools[0].Id), CancellationToken.None)))!;

    [GeneratedRegex(@"Today: at most ([\d.]+) g of food a day for (\d+) fish,.*percent of weight: (\d+) × ([\d.]+) g × ([\d.]+)%\.")]
    private static partial Regex Food();
}
