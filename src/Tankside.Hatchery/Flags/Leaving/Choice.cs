using Tankside.Hatchery.Places;

namespace Tankside.Hatchery.Flags.Leaving;

/// <summary>Chooses the one thing to do: each act is tried on the tank as it stands; see <see cref="BeforeTheBell"/> for which is taken.</summary>
internal sealed class Choice(WeekendCase left, ClosedStretch stretch, LeaveVerdict verdict)
{
    private readonly Situation s = left.Situation;

    /// <summary>The act, and the share lost with it.</summary>
    public (BeforeTheBell Act, double Lost) Best()
    {
        var asItIs = left.ShareLost;
        var tried = Tries().Select(t => (t.Act, Lost: t.Case.ShareLost)).ToList();

        // Until somebody has looked nothing else can be chosen; once the bell has rung only somebody with a key can look.
        if (verdict == LeaveVerdict.NotKnown)
        {
            var look = stretch.HasBegun(s.Now) ? BeforeTheBell.AdultLooks : BeforeTheBell.ReadNow;
            return (look, tried.Where(t => t.Act == look).Select(t => t.Lost).DefaultIfEmpty(asItIs).First());
        }

        if (verdict == LeaveVerdict.Safe && tried.All(t => Fish(asItIs - t.Lost) < s.Limits[Limits.Leaving.Worth]))
        {
            return (BeforeTheBell.Nothing, asItIs);
        }

        var makeSafe = tried.Where(t => Fish(t.Lost) <= s.Limits[Limits.Leaving.Safe]).ToList();
        var pool = makeSafe.Count > 0 ? makeSafe : tried;
        var least = pool.Min(t => t.Lost);
        return pool.Where(t => Fish(t.Lost - least) <= s.Limits[Limits.Leaving.Worth]).MinBy(t => t.Act);
    }

    private double Fish(double share) => share * s.Record.Fish;

    private IEnumerable<(BeforeTheBell Act, WeekendCase Case)> Tries() =>
        [.. stretch.HasBegun(s.Now) ? [] : Before(), .. left.Troubles.Count == 0 || stretch.HasBegun(s.Now) ? Key() : []];

    private IEnumerable<(BeforeTheBell Act, WeekendCase Case)> Key() =>
        [(BeforeTheBell.AdultLooks, left with { Looks = AdultLooks.Times(s, stretch, left.Looks[^1]) })];

    private IEnumerable<(BeforeTheBell Act, WeekendCase Case)> Before()
    {
        if (verdict == LeaveVerdict.NotKnown)
        {
            yield return (BeforeTheBell.ReadNow, left with { Since = s.Now });
        }

        if (left.Troubles.Count > 0)
        {
            foreach (var act in left.Troubles.Select(t => ActFor(t.Kind)).Distinct())
            {
                yield return (act, left with { Settled = kind => ActFor(kind) == act });
            }

            yield break; // What is wrong now comes before what could go wrong.
        }

        if (s.Swims)
        {
            yield return (BeforeTheBell.SpareAir, left with { SpareAirHours = s.Limits[Limits.Leaving.BatteryHours] });
            yield return (BeforeTheBell.HalfFeed, left with { LeftoversOut = true });
        }

        var step = s.Limits[Limits.Leaving.Step];
        if (s.Tank.SetPointC - step >= s.Limits[Limits.Leaving.StepLowest])
        {
            yield return (BeforeTheBell.LowerSetPoint, left with { Tank = new UnwatchedTank(s, step) });
        }

        if (stretch.IsBreak && (s.Swims || left.Coming.SwimUp >= s.Limits[Limits.Leaving.Coming]))
        {
            yield return (BeforeTheBell.MoveToHolding, left with { Moved = true });
        }
    }

    private static BeforeTheBell ActFor(FlagKind kind) => kind == FlagKind.IcedCoil ? BeforeTheBell.ThawCoil : Dangers.Of(kind) switch
    {
        Danger.Heat => BeforeTheBell.CoolAgain,
        Danger.Air => BeforeTheBell.FlowAgain,
        Danger.Cold or Danger.Poison or Danger.Disease or Danger.Hunger or Danger.NotKnowing or Danger.None => BeforeTheBell.SettleTrouble,
    };
}
