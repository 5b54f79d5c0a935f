using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;
using Tankside.Science.Eggs;
using Tankside.Science.Heat;
using Tankside.Science.Units;

namespace Tankside.Hatchery.Flags;

/// <summary>A tank record with what several rules would otherwise work out again: stage, last values, limits of the stage.</summary>
public sealed class Situation
{
    private List<ReadingFact>? told;

    public Situation(TankRecord record, DateTime now)
    {
        Record = record;
        Now = now;
        Today = record.Calendar.Clock.Day(now);
        Development = record.DevelopmentOn(Today);
        Water = LastThatSays(s => s.WaterC);
    }

    public TankRecord Record { get; }

    public DateTime Now { get; }

    public DateOnly Today { get; }

    public DevelopmentNow Development { get; }

    public LifeStage Stage => Development.Stage;

    public bool Swims => Stage == LifeStage.Fry;

    public TankProfile Tank => Record.Tank;

    public LimitSet Limits => Record.Limits;

    /// <summary>The newest reading with a water temperature; by when it was read, not by when it arrived.</summary>
    public ReadingFact? Water { get; }

    public double? WaterC => Water?.Seen.WaterC;

    /// <summary>The first reading of the unbroken run of temperatures that ends with the newest and is all outside a limit.</summary>
    public DateTime WaterSince(Func<double, bool> outside) =>
        Record.Recent.Reverse().Where(r => r.Seen.WaterC is not null).TakeWhile(r => outside(r.Seen.WaterC!.Value)).Last().At;

    /// <summary>The newest reading that says anything about <paramref name="what"/>.</summary>
    public ReadingFact? LastThatSays<T>(Func<Observation, T?> what)
        where T : struct
    {
        for (var i = Record.Recent.Count - 1; i >= 0; i--)
        {
            if (what(Record.Recent[i].Seen) is not null)
            {
                return Record.Recent[i];
            }
        }

        return null;
    }

    /// <summary>
    /// The recent readings that say more than a logger measures, ascending. A logger's are nearly all there are, and most questions are about
    /// what only a person sees: each would go through three weeks of them for nothing.
    /// </summary>
    public IReadOnlyList<ReadingFact> Told => told ??= [.. Record.Recent.Where(r => !r.Seen.IsOfLogger)];

    /// <summary>The newest reading that says anything about <paramref name="what"/>, which is neither the water's or room's temperature nor the chiller.</summary>
    public ReadingFact? LastTold<T>(Func<Observation, T?> what)
        where T : struct => Told.LastOrDefault(r => what(r.Seen) is not null);

    /// <summary>When an adult of the school last said, of a marked area, that all is well.</summary>
    public DateTime? AllWellAt => Record.Marks.Select(m => m.Word).OfType<SchoolWord>()
        .Where(w => w.Answer == SweepAnswer.AllWell).Max(w => (DateTime?)w.At);

    public double RoomC => LastThatSays(s => s.RoomC) is { } r && r.At > Now.AddDays(-1) ? r.Seen.RoomC!.Value : Tank.RoomC;

    /// <summary>Where the water would settle with the chiller off, °C.</summary>
    public Celsius SettlesAt => Warming.SettlesAt(new Celsius(RoomC), new Litres(Tank.Litres), Tank.Jacket);

    public double OfStage(Setting eggAndAlevin, Setting fry) => Limits[Swims ? fry : eggAndAlevin];

    /// <summary>The heat limit that time is counted to: the stage's first, or the next when the water is already past it.</summary>
    public double HeatLimitFor(double waterC)
    {
        var brown = Record.Lot!.Species == Species.BrownTrout;
        var first = Limits[(Swims, brown) switch
        {
            (false, false) => Flags.Limits.HeatLimitEgg,
            (false, true) => Flags.Limits.HeatLimitEggBrown,
            (true, false) => Flags.Limits.HeatLimitFry,
            (true, true) => Flags.Limits.HeatLimitFryBrown,
        }];
        return waterC < first ? first : Limits[Swims ? Flags.Limits.HeatNextFry : Flags.Limits.HeatNextEgg];
    }

    /// <summary>The instants at which a limit is passed, from hours counted from <paramref name="from"/>.</summary>
    public static PassTimes? PassTimes(DateTime from, Band? hours) => hours is { } h
        ? new PassTimes(from.AddHours(h.Low), from.AddHours(h.Mid), from.AddHours(h.High))
        : null;
}
