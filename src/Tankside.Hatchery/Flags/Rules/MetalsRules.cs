using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Readings;
using Tankside.Science.Losses;
using Tankside.Science.Units;
using Tankside.Science.Water;

namespace Tankside.Hatchery.Flags.Rules;

/// <summary>
/// The pattern that copper or zinc from a pipe, can or fitting leaves: deaths that begin after hatch or at swim-up, more than were usual
/// before, while every water test of the last days is good and nothing else was seen wrong. It asks for a metals test; it proves nothing.
/// </summary>
public static class MetalsRules
{
    /// <summary>Deaths this many days before the middle of a stage are still the stage's.</summary>
    private const int Before = 2;

    /// <summary>A count older than this many days says nothing of now.</summary>
    private const int Stale = 3;

    private const double HighestPh = 9;

    public static Finding? DeathsInGoodWater(Situation s)
    {
        var counted = s.Record.Days.Where(d => d.Dead is not null).ToList();
        if (s.Stage == LifeStage.Egg || counted.Count == 0 || s.Today.DayNumber - counted[^1].Day.DayNumber > Stale
            || Begun(s, counted[^1].Day) is not { } begun)
        {
            return null;
        }

        var last = counted[^1].Day;
        var window = counted.Where(d => d.Day > last.AddDays(-(int)s.Limits[Limits.MetalsDays])).ToList();
        var dead = window.Sum(Hatched);
        if (dead < s.Limits[Limits.MetalsFewest] || IsOneBadDay(window, dead) || window.TakeLast(2).All(d => Hatched(d) == 0)
            || Tail(s, counted, begun.Day, window, dead) >= s.Limits[Limits.MetalsTail] || !IsWell(s, out var tests))
        {
            return null;
        }

        var at = s.Told.LastOrDefault(r => r.Seen is { DeadAlevins: > 0 } or { DeadFry: > 0 })?.At ?? s.Record.Calendar.WindowOf(last).Closes;
        var first = window.First(d => Hatched(d) > 0).Day;
        var evidence = new MetalsEvidence(
            s.Stage, dead, first, last, begun.SwimUp, begun.Day, tests.Ph.Seen.Ph!.Value, tests.Ammonia.Seen.AmmoniaTotalMgL!.Value, tests.Nitrite, at);
        var hazard = Hazard.Around(at, s.Limits[Limits.Losses.MetalsHours], s.Limits[Limits.Losses.MetalsShare]);
        return new Finding(FlagKind.Metals, Urgency.Today, at, evidence, hazard);
    }

    /// <summary>Metals kill day by day; more than two thirds of the dead on one day is something that happened that day.</summary>
    private static bool IsOneBadDay(List<TankDay> window, int dead) => 3 * window.Max(Hatched) > 2 * dead;

    private static int Hatched(TankDay day) => (day.DeadAlevins ?? 0) + (day.DeadFry ?? 0);

    /// <summary>The hatch or swim-up, the later of those reached, that <paramref name="last"/> lies shortly after.</summary>
    private static (DateOnly Day, bool SwimUp)? Begun(Situation s, DateOnly last)
    {
        var within = (int)s.Limits[Limits.MetalsOnset];
        var swimUp = s.Record.Days.FirstOrDefault(d => d.Swimming >= Share.Half)?.Day ?? s.Development.SwimUp?.Mid;
        var hatch = s.Development.HalfHatchedOn ?? s.Development.Hatch?.Mid;
        return (swimUp, hatch) switch
        {
            ({ } day, _) when Follows(day) => (day, true),
            (_, { } day) when Follows(day) => (day, false),
            _ => null,
        };

        bool Follows(DateOnly day) => last >= day.AddDays(-Before) && last <= day.AddDays(within);
    }

    /// <summary>Chance of so many deaths by the tank's record from before the stage and its lot's siblings.</summary>
    private static double Tail(Situation s, List<TankDay> counted, DateOnly begun, List<TankDay> window, int dead)
    {
        var earlier = counted.Where(d => d.Day < begun.AddDays(-Before) && d.Day < window[0].Day).ToList();
        var fish = Math.Max(1, s.Record.Fish + dead);
        var usual = UsualLoss.Of(s.Limits, s.Record.Siblings, s.Record.Lot!.DeliveredOn, UsualLoss.HatchOf(s.Development));
        var deaths = earlier.Sum(d => d.Dead!.Value);
        var days = earlier.Count == 0 ? 0 : Math.Max(1, earlier[^1].Day.DayNumber - s.Record.Lot.DeliveredOn.DayNumber + 1);
        var (shape, rate) = usual.After(deaths, (double)(fish + deaths) * days);
        return GammaPoisson.UpperTail(shape, rate, fish * s.Limits[Limits.MetalsDays], dead);
    }

    /// <summary>pH and ammonia tested and every test of the last days good, and nothing seen that would explain deaths.</summary>
    private static bool IsWell(Situation s, out (ReadingFact Ph, ReadingFact Ammonia, double? Nitrite) tests)
    {
        var recent = s.Record.Recent.Where(r => r.At >= s.Now.AddDays(-s.Limits[Limits.MetalsTestAge])).ToList();
        var ph = recent.LastOrDefault(r => r.Seen.Ph is not null);
        var ammonia = recent.LastOrDefault(r => r.Seen.AmmoniaTotalMgL is not null);
        tests = (ph!, ammonia!, recent.LastOrDefault(r => r.Seen.NitriteMgL is not null)?.Seen.NitriteMgL);
        return ph is not null && ammonia is not null && recent.TrueForAll(r => IsGood(s, r, ph.Seen.Ph!.Value));
    }

    private static bool IsGood(Situation s, ReadingFact reading, double ph)
    {
        var (seen, limits) = (reading.Seen, s.Limits);
        var poison = seen.AmmoniaTotalMgL is { } total
            ? Ammonia.UnionizedN(new MilligramsPerLitre(total), seen.Ph ?? ph, new Celsius(WaterTests.WaterAt(s, reading))).Value
            : 0;
        return poison < limits[Limits.AmmoniaLook]
            && !(seen.Ph < limits[Limits.PhLow] || seen.Ph > HighestPh)
            && !(seen.NitriteMgL >= limits[Limits.NitriteLook])
            && !(seen.ChlorineMgL > limits[Limits.ChlorineLimit])
            && !(seen.OxygenMgL < s.OfStage(Limits.OxygenActEgg, Limits.OxygenActFry))
            && !(seen.WaterC >= s.OfStage(Limits.WarmLookEgg, Limits.WarmLookFry) || seen.WaterC <= s.OfStage(Limits.ColdActEgg, Limits.ColdActFry))
            && seen is not ({ Moving: false } or { Bubbles: false } or { Gasping: true } or { Fungus: true } or { IceOnCoil: true });
    }
}
