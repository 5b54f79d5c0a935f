using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;
using Tankside.Science.Losses;
using Tankside.Science.Units;

namespace Tankside.Hatchery.Flags.Leaving;

/// <summary>What development brings into a closed stretch: a hatch, a swim-up, and fry that nobody feeds.</summary>
public sealed class Coming
{
    /// <summary>The ends of the hungry time over its middle (10 and 20 of 14 days).</summary>
    private const double Early = 10.0 / 14, Late = 20.0 / 14;

    private readonly Situation s;
    private readonly ClosedStretch stretch;

    /// <summary>Chances of swim-up: before the bell, then on each day of the stretch.</summary>
    private readonly IReadOnlyList<double> swimUpDays;

    private Coming(Situation s, ClosedStretch stretch, double hatch, IReadOnlyList<double> swimUpDays)
    {
        (this.s, this.stretch, this.swimUpDays) = (s, stretch, swimUpDays);
        Hatch = hatch;
    }

    /// <summary>Chance that half hatch within the stretch.</summary>
    public double Hatch { get; }

    /// <summary>Chance that they swim up, and so want their first food, within the stretch.</summary>
    public double SwimUp => swimUpDays.Skip(1).Sum();

    /// <summary>The swim-up day, when they swim already and it is known.</summary>
    public DateOnly? SwimsSince { get; private init; }

    /// <summary>They swim, but not for long: fry that are still learning to eat.</summary>
    public bool NewFeeders { get; private init; }

    internal static Coming To(Situation s, ClosedStretch stretch)
    {
        var clock = s.Record.Calendar.Clock;
        var (bell, back) = (clock.Day(stretch.Bell), clock.Day(stretch.Until));
        var hatch = s.Stage == LifeStage.Egg && s.Development.Hatch is { } h ? Chance(h, bell.AddDays(1), back) : 0;
        if (s.Swims)
        {
            var since = s.Record.Days.FirstOrDefault(d => d.Swimming >= Share.Half)?.Day ?? s.Development.SwimUp?.Mid;
            var newly = since is { } day && bell.DayNumber - day.DayNumber < s.Limits[Limits.Leaving.Newly];
            return new Coming(s, stretch, hatch, []) { SwimsSince = since, NewFeeders = newly };
        }

        // Before the bell as one, then each day of the stretch: those that swim up before it ends go hungry from then on.
        List<double> days = s.Development.SwimUp is { } swimUp
            ? [Chance(swimUp, DateOnly.MinValue, bell.AddDays(1)), .. Enumerable.Range(1, back.DayNumber - bell.DayNumber).Select(i => Chance(swimUp, bell.AddDays(i), bell.AddDays(i + 1)))]
            : [];
        return new Coming(s, stretch, hatch, days);
    }

    /// <summary>Share of the fish lost to an unattended hatch, and to hunger in the end: those that learn too late do not recover.</summary>
    internal double ShareLost(IReadOnlyList<DateTime> looks)
    {
        var hatch = Hatch * s.Limits[Limits.Leaving.HatchShare];
        return 1 - ((1 - hatch) * (1 - (s.Swims ? HungryFry(looks) : HungryFromSwimUp(looks[^1]))));
    }

    private double HungryFry(IReadOnlyList<DateTime> looks)
    {
        if (NewFeeders)
        {
            return Starved(stretch.Bell, looks[^1], Limits.Leaving.HungerDays); // A look every other day teaches nobody to eat.
        }

        var longest = looks.Prepend(stretch.Bell).Zip(looks, (a, b) => b - a).Max();
        return Starved(stretch.Bell, stretch.Bell + longest, Limits.Leaving.HungerDaysFed);
    }

    private double HungryFromSwimUp(DateTime end)
    {
        var clock = s.Record.Calendar.Clock;
        var bell = clock.Day(stretch.Bell);
        return swimUpDays.Select((chance, i) => chance * Starved(
            i == 0 ? stretch.Bell : clock.Utc(bell.AddDays(i), s.Record.Calendar.Opens), end, Limits.Leaving.HungerDays)).Sum();
    }

    private double Starved(DateTime from, DateTime till, Setting days)
    {
        var middle = 24 * s.Limits[days];
        return new Hazard(from, new Band(middle * Early, middle, middle * Late), s.Limits[Limits.Leaving.HungerShare], null).LostBy(till);
    }

    private static double Chance(StageForecast stage, DateOnly from, DateOnly before)
    {
        var sd = Math.Max(0.5, stage.SdDays);
        double Until(DateOnly day) => Normal.Cdf((day.DayNumber - stage.Mid.DayNumber - 0.5) / sd);
        return Math.Max(0, Until(before) - Until(from));
    }
}
