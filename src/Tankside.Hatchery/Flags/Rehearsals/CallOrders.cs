namespace Tankside.Hatchery.Flags.Rehearsals;

/// <summary>
/// How many fish an order of calls saves. Each call takes its minutes, so whoever is called late is helped late: what a call saves is what
/// the tank loses until somebody could next act without one, less what it loses until the call is acted on.
/// </summary>
public sealed class CallOrders(MadeUpMorning morning, double minutesACall)
{
    /// <summary>So many tanks that every subset of them can be looked at; those behind have least to lose and follow by that.</summary>
    private const int MostExact = 14;

    private List<MadeUpTank> Troubled => [.. morning.Troubled.OrderByDescending(t => Saved(t, 1)).ThenBy(t => t.Code, StringComparer.Ordinal)];

    public TimeSpan ACall { get; } = TimeSpan.FromMinutes(minutesACall);

    /// <summary>When the call at a place in the order begins; places count from 1.</summary>
    public DateTime CalledAt(int place) => morning.Start + ((place - 1) * ACall);

    /// <summary>Fish that a call at a place in the order saves.</summary>
    public double Saved(MadeUpTank tank, int place)
    {
        var (_, ifNot) = MorningRound.ActTimes(tank.Room.Calendar, morning.Start);
        var (acts, _) = MorningRound.ActTimes(tank.Room.Calendar, morning.Start + (place * ACall));
        return Math.Max(0, MorningRound.LostBy(tank.InRound, ifNot) - MorningRound.LostBy(tank.InRound, acts));
    }

    /// <summary>Fish saved by all the calls of an order; a well tank in it costs the time of those behind it.</summary>
    public double Saved(IEnumerable<string> codes) =>
        codes.Select((code, i) => morning.Find(code) is { } tank ? Saved(tank, i + 1) : 0).Sum();

    /// <summary>The order that the round itself gives.</summary>
    public IReadOnlyList<string> OfRound() => [.. MorningRound.Order(morning.Troubled.Select(t => t.InRound), morning.Start).Select(c => c.Tank.Code)];

    /// <summary>
    /// The order that saves most, exactly: for each set of tanks the best way to have called just these first, built up from smaller sets.
    /// </summary>
    public IReadOnlyList<string> Best()
    {
        var (troubled, rest) = (Troubled.Take(MostExact).ToList(), Troubled.Skip(MostExact).Select(t => t.Code));
        var count = troubled.Count;
        var saved = SavedByPlace(troubled);
        var most = new double[1 << count];
        var last = new int[1 << count];
        Array.Fill(most, double.NegativeInfinity);
        most[0] = 0;
        for (var called = 1; called < most.Length; called++)
        {
            var place = System.Numerics.BitOperations.PopCount((uint)called);
            for (var tank = 0; tank < count; tank++)
            {
                if ((called & (1 << tank)) != 0 && most[called ^ (1 << tank)] + saved[tank, place - 1] is var sum && sum > most[called])
                {
                    (most[called], last[called]) = (sum, tank);
                }
            }
        }

        var order = new List<string>(count);
        for (var called = most.Length - 1; called != 0; called ^= 1 << last[called])
        {
            order.Add(troubled[last[called]].Code);
        }

        order.Reverse();
        return [.. order, .. rest];
    }

    private double[,] SavedByPlace(List<MadeUpTank> troubled)
    {
        var saved = new double[troubled.Count, troubled.Count];
        for (var tank = 0; tank < troubled.Count; tank++)
        {
            for (var place = 1; place <= troubled.Count; place++)
            {
                saved[tank, place - 1] = Saved(troubled[tank], place);
            }
        }

        return saved;
    }
}
