using System.Diagnostics;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Load;

/// <summary>
/// Pages of a programme with 10,000 tanks beside those of one with 500, each with 400 open flags and three weeks of hourly readings in the
/// tanks that are opened, over HTTP, signed in as the coordinator.
/// </summary>
public static class PageOpening
{
    private const int Flags = 400, Opened = 20, Days = 21;

    public static Task<Comparison> RoundAsync(DatabaseKind kind, bool quick) => MeasureAsync("round", kind, quick, (_, _) => "/round");

    public static Task<Comparison> TankAsync(DatabaseKind kind, bool quick) => MeasureAsync("a tank's page", kind, quick, (place, i) => $"/tanks/{place.Tanks[i % Opened].Code}");

    private static async Task<Comparison> MeasureAsync(string what, DatabaseKind kind, bool quick, Func<LoadPlace, int, string> address)
    {
        var (large, small) = quick ? (2000, 500) : (10_000, 500);
        await using var many = await OpenAsync(kind, large);
        await using var few = await OpenAsync(kind, small);
        using var atMany = await many.Portal.ClientAs(Role.Coordinator, many.Programme);
        using var atFew = await few.Portal.ClientAs(Role.Coordinator, few.Programme);
        return await Comparison.RunAsync(
            FormattableString.Invariant($"{what} of {large:#,0} tanks beside {small}, {Flags} flags each, p95"), kind, quick ? 3 : 9, Comparison.AsSeconds,
            portal: () => SideAsync(atMany, i => address(many, i), quick), bare: () => SideAsync(atFew, i => address(few, i), quick));
    }

    private static async Task<LoadPlace> OpenAsync(DatabaseKind kind, int tanks)
    {
        var place = await LoadPlace.CreateAsync(kind, tanks, environment: "Development");
        await FlagAsync(place);
        await Judging.FillAsync(place, place.Tanks.Take(Opened), Days, perHour: 1);
        place.Portal.Listen();
        return place;
    }

    /// <summary>The slowest twentieth decides: that is what a coordinator remembers.</summary>
    private static async Task<Side> SideAsync(HttpClient client, Func<int, string> address, bool quick)
    {
        var times = new List<double>();
        for (var i = 0; i < (quick ? 10 : 40); i++)
        {
            var watch = Stopwatch.StartNew();
            using var answer = await client.GetAsync(address(i));
            var html = await answer.EnsureSuccessStatusCode().Content.ReadAsStringAsync();
            times.Add(watch.Elapsed.TotalMilliseconds);
            if (!html.Contains("</html>", StringComparison.Ordinal))
            {
                throw new InvalidOperationException($"{address(i)} broke off after {html.Length} characters.");
            }
        }

        times.Sort();
        return new Side(times[(int)Math.Ceiling(times.Count * 0.95) - 1] / 1000, times);
    }

    internal static Task FlagAsync(LoadPlace place) => place.Portal.SeedAsync(db => db.Flags.AddRange(place.Tanks.Take(Flags).Select((tank, i) => new Flag
    {
        Id = Guid.CreateVersion7(),
        ProgrammeId = place.ProgrammeId,
        TankId = tank.Id,
        Kind = FlagKind.Warm,
        Urgency = i % 3 == 0 ? Urgency.ActNow : Urgency.Today,
        OpenedAt = TestWorld.Now,
        UpdatedAt = TestWorld.Now,
        StandsOn = TestWorld.Now,
        Evidence = new TemperatureEvidence(LifeStage.Alevin, 13 + (i % 40 * 0.1), TestWorld.Now, 12.2, TestWorld.Now, 10.5),
        Hazard = Hazard.Around(TestWorld.Now, 12 + (i % 60), 0.1 + (i % 7 * 0.1)),
        RuleVersion = Assessment.RuleVersion,
    })));
}
