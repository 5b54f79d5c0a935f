using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;
using Tankside.Science.Eggs;
using Tankside.Science.Units;

namespace Tankside.Portal.Demo;

/// <summary>What one class wrote down, day by day: mostly that all is well. Some tanks have a trouble on the last days.</summary>
public sealed class DemoStory(DemoTank tank, SchoolCalendar calendar, DemoDice dice)
{
    private readonly double tanksOwn = dice.Around(0, 0.15);

    private double fraction;

    public sealed record Entry(DateTime At, double Typed, Observation Seen, bool Asked);

    public List<Entry> Tell(IReadOnlyList<DateOnly> days)
    {
        var entries = new List<Entry>();
        var through = LastDay(days);
        foreach (var day in days.Where(d => d <= through))
        {
            // A class misses a day now and then, but not the last two, so that only the tank meant to be silent is.
            if (dice.Chance(0.06) && day < days[Math.Max(0, days.Count - 2)])
            {
                continue;
            }

            entries.Add(Ordinary(day));
        }

        if (days.Count > 0)
        {
            Trouble(entries, days[^1]);
        }

        return entries;
    }

    /// <summary>The silent tank stopped four school days ago; those released stop with their release.</summary>
    private DateOnly LastDay(IReadOnlyList<DateOnly> days) => days.Count == 0 ? default
        : tank.Number == 33 ? days[Math.Max(0, days.Count - 4)]
        : DemoReleases.ReleasedDaysAgo(tank.Number) is { } ago ? days.Last(d => d <= days[^1].AddDays(-ago))
        : days[^1];

    private Entry Ordinary(DateOnly day)
    {
        var at = calendar.Clock.Utc(day, new TimeOnly(8, 30).AddMinutes(dice.Between(0, 110)));
        if (tank.Awaits)
        {
            return new Entry(at, Typed(15 + dice.Around(0, 0.3)), new Observation { Moving = true, Bubbles = true, LevelOk = true, Clear = true }, Asked: false);
        }

        // One tank stands steady a little warm; another's thermometer has stuck.
        var water = tank.Number == 7 ? 12.22 : tank.Number == 42 ? 10.0 : tank.Tank.SetPointC + tanksOwn + dice.Around(0, 0.25);
        fraction = FractionOn(day);
        var stage = StageOn();
        var dead = dice.Count(stage == LifeStage.Fry ? 0.15 : 0.25);
        var seen = new Observation
        {
            Moving = true,
            Bubbles = true,
            LevelOk = !dice.Chance(0.03),
            Clear = !dice.Chance(0.03),
            DeadEggs = stage == LifeStage.Egg ? dead : null,
            DeadAlevins = stage == LifeStage.Alevin ? dead : null,
            DeadFry = stage == LifeStage.Fry ? dead : null,
            Hatched = HatchedOn(),
            Swimming = fraction is > 1.45 and < 2.1 ? ShareOf(fraction, 1.6, 1.8) : null,
            Fed = stage == LifeStage.Fry ? true : null,
            Ph = day.DayOfWeek == DayOfWeek.Wednesday ? Math.Round(dice.Around(7.2, 0.15), 1) : null,
            AmmoniaTotalMgL = day.DayOfWeek == DayOfWeek.Wednesday ? (dice.Chance(0.2) ? 0.25 : 0) : null,
        };
        return new Entry(at, Typed(water), seen, Asked: false);
    }

    /// <summary>Tank 20 should have hatched long ago and says it has not; the others report around the model's day.</summary>
    private Share? HatchedOn() => fraction is < 0.9 or > 1.3 ? null : tank.Number == 20 ? Share.None : ShareOf(fraction, 0.98, 1.1);

    private static Share ShareOf(double fraction, double start, double end) => ((fraction - start) / (end - start)) switch
    {
        < 0 => Share.None,
        < 0.3 => Share.Some,
        < 0.6 => Share.Half,
        < 1 => Share.Most,
        _ => Share.All,
    };

    private LifeStage StageOn() => fraction < 1.05 || tank.Number == 20 ? LifeStage.Egg : fraction < 1.7 ? LifeStage.Alevin : LifeStage.Fry;

    private double FractionOn(DateOnly day)
    {
        StageModels.TryFind(tank.Plan.Species, Stage.Hatch, out var model, out _);
        var before = tank.DeliveredOn.DayNumber - tank.Lot.FertilisedFrom.DayNumber;
        return (before * model!.RateAt(new Celsius(tank.Plan.HatcheryC)))
            + ((day.DayNumber - tank.DeliveredOn.DayNumber) * model.RateAt(new Celsius(tank.Tank.SetPointC)));
    }

    private double Typed(double celsius) => tank.Tank.UsualUnit == TemperatureUnit.F
        ? Math.Round(WaterTemperature.FromC(celsius, TemperatureUnit.F))
        : Math.Round(celsius * 2) / 2;

    private void Trouble(List<Entry> entries, DateOnly day)
    {
        switch (tank.Number)
        {
            case 3: // Warm by the end of the day: the chiller stopped after the morning look.
                Afternoon(16.1, seen => seen);
                break;
            case 12: // A coil cased in ice.
                Afternoon(3.3, seen => seen with { IceOnCoil = true });
                break;
            case 5: // The pump runs, but the air does not reach the water.
                Last(seen => seen with { OxygenMgL = 5.6 });
                break;
            case 9: // Tap water went in untreated.
                Last(seen => seen with { WaterChangedPercent = 30, ChlorineMgL = 0.2 });
                break;
            case 14: // Deaths day by day after the hatch, with every test good: something in the water that no kit shows.
                Each(6, seen => seen with { DeadAlevins = 3, Ph = 7.2, AmmoniaTotalMgL = 0, NitriteMgL = 0 });
                break;
            case 28:
                Last(seen => seen with { Hatched = Share.Some });
                break;
            case 29: // Two answers that cannot both be true.
                Last(seen => seen with { DeadFry = 1, Hatched = Share.None });
                break;
            case 37:
                Each(2, seen => seen with { NitriteMgL = 0.3 });
                break;
            case 43:
                Each(12, seen => seen with { Ph = 6.3 });
                break;
            case 18:
                Afternoon(13.0, seen => seen with { ChillerRunning = false });
                break;
            case 23:
                Afternoon(11.1, seen => seen with { Moving = false, Bubbles = false });
                break;
            case 22 or 30: // Of the same delivery run as 26: three of its four.
                Last(seen => seen with { DeadEggs = tank.Number == 22 ? 26 : 21 });
                break;
            case 26:
                Last(seen => seen with { DeadEggs = 14, Fungus = true });
                break;
            case 31: // Typed on the wrong scale: kept, and asked.
                entries.Add(new Entry(At(13, 5), 52, new Observation { Moving = true, Bubbles = true }, Asked: true));
                break;
            case 41:
                Last(seen => seen with { AmmoniaTotalMgL = 2, Ph = 8.0 });
                break;
            case 45:
                Afternoon(3.2, seen => seen);
                break;
        }

        void Afternoon(double celsius, Func<Observation, Observation> change) =>
            entries.Add(new Entry(At(14, 40), Typed(celsius), change(new Observation { Moving = true, Bubbles = true, LevelOk = true, Clear = true }), Asked: false));

        void Each(int last, Func<Observation, Observation> change)
        {
            for (var i = Math.Max(0, entries.Count - last); i < entries.Count; i++)
            {
                entries[i] = entries[i] with { Seen = change(entries[i].Seen) };
            }
        }

        void Last(Func<Observation, Observation> change) => entries[^1] = entries[^1] with { Seen = change(entries[^1].Seen) };

        DateTime At(int hour, int minute) => calendar.Clock.Utc(day, new TimeOnly(hour, minute));
    }
}
