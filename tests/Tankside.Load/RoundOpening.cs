using System.Diagnostics;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Portal.Flags;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Load;

/// <summary>
/// The morning round of a programme with 10,000 tanks beside that of one with 500, each with 400 open flags. An open page that
/// hears of a change reads and orders the round anew, so opening and ordering again are the same work.
/// </summary>
public static class RoundOpening
{
    private const int Flags = 400;

    public static async Task<Comparison> MeasureAsync(DatabaseKind kind, bool quick)
    {
        var (large, small) = quick ? (2000, 500) : (10_000, 500);
        await using var many = await LoadPlace.CreateAsync(kind, large);
        await using var few = await LoadPlace.CreateAsync(kind, small);
        await FlagAsync(many);
        await FlagAsync(few);
        return await Comparison.RunAsync(
            FormattableString.Invariant($"round of {large:#,0} tanks beside {small}, {Flags} flags each, p95"), kind, quick ? 3 : 9, Comparison.AsSeconds,
            portal: () => SideAsync(many, quick), bare: () => SideAsync(few, quick));
    }

    /// <summary>The slowest twentieth decides: that is what a coordinator remembers.</summary>
    private static async Task<Side> SideAsync(LoadPlace place, bool quick)
    {
        var times = new List<double>();
        for (var i = 0; i < (quick ? 10 : 40); i++)
        {
            var watch = Stopwatch.StartNew();
            var round = await place.Portal.CallAsync<Round, RoundNow>(r => r.LoadAsync(place.ProgrammeId, CancellationToken.None));
            times.Add(watch.Elapsed.TotalMilliseconds);
            if (round.Calls.Count != Flags)
            {
                throw new InvalidOperationException($"The round shows {round.Calls.Count} calls instead of {Flags}.");
            }
        }

        times.Sort();
        return new Side(times[(int)Math.Ceiling(times.Count * 0.95) - 1] / 1000, times);
    }

    private static Task FlagAsync(LoadPlace place) => place.Portal.SeedAsync(db => db.Flags.AddRange(place.Tanks.Take(Flags).Select((tank, i) => new Flag
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
