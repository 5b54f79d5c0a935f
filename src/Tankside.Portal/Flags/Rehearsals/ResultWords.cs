using System.Globalization;
using Tankside.Hatchery.Flags.Rehearsals;

namespace Tankside.Portal.Flags.Rehearsals;

/// <summary>The end of a rehearsal in words. Fish are "about": they come from chances.</summary>
public sealed class ResultWords(WorkedMorning morning)
{
    private static readonly CultureInfo Plain = CultureInfo.InvariantCulture;

    private RehearsalResult Result => morning.Result;

    private string Whose => morning.Mine ? "Your" : $"{morning.WorkedBy}’s";

    public string Answer => Fish(Result.Best) == Fish(Result.Saved)
        ? $"{Whose} order saved about {Fish(Result.Saved)} fish, as many as the best order."
        : $"{Whose} order saved about {Fish(Result.Saved)} fish; the best order {Fish(Result.Best)}.";

    public string Lead
    {
        get
        {
            var (missed, idle, late) = (Result.Tanks.Count(t => t.Place is null), Result.Tanks.Count(t => t.Idle), Result.Tanks.Count(t => t.TooLate));
            List<string?> parts =
            [
                $"The round’s own order saves {Fish(Result.Round)}",
                late > 0 ? CountWords.Count(late, "call came too late", "calls came too late") : null,
                missed > 0 ? CountWords.Count(missed, "tank in trouble was not rung", "tanks in trouble were not rung") : null,
                idle > 0 ? CountWords.Count(idle, "call went to a tank that was well", "calls went to tanks that were well") : null,
            ];
            return $"{string.Join("; ", parts.OfType<string>())}.";
        }
    }

    /// <summary>"143 of 158".</summary>
    public static string InBrief(RehearsalResult result) => $"about {Fish(result.Saved)} of {Fish(result.Best)}";

    public string YourCall(WorkedTank tank) => tank.Place is { } place
        ? $"{morning.Clock(Result.Orders.CalledAt(place))}, {Nth(place)}"
        : "not rung";

    public string BestCall(WorkedTank tank) => tank.BestPlace is { } place ? $"{morning.Clock(Result.Orders.CalledAt(place))}, {Nth(place)}" : "not at all";

    public static string RoundCall(WorkedTank tank) => tank.RoundPlace is { } place ? Nth(place) : "not at all";

    public static string Saved(WorkedTank tank) => tank.BestPlace is null ? "none to save"
        : tank.BestSaved < WorkedTank.Worth ? "hardly a fish"
        : $"about {Fish(tank.Saved)} of {Fish(tank.BestSaved)}";

    /// <summary>What became of it, in one sentence.</summary>
    public string Verdict(WorkedTank tank) => tank switch
    {
        { Idle: true } => tank.Place < morning.Calls ? $"Nothing was wrong; those behind it waited {Minutes(1)} longer." : "Nothing was wrong.",
        { Place: null } when tank.Cost < WorkedTank.Worth => $"Not rung; hardly a fish depends on it before {morning.NextAct(tank.Tank)}.",
        { Place: null } => $"Not rung: about {Fish(tank.Cost)} fish lost before somebody next acts, {morning.NextAct(tank.Tank)}.",
        { TooLate: true } => $"{Minutes(tank.Place!.Value - tank.BestPlace!.Value)} too late: about {Fish(tank.Cost)} fish lost by it.",
        { Place: { } place, BestPlace: { } best } when place > best => $"{Minutes(place - best)} later than in the best order; that cost hardly a fish.",
        { Place: { } place, BestPlace: { } best } when place < best && tank.Cost <= -WorkedTank.Worth =>
            $"Sooner than in the best order: about {Fish(-tank.Cost)} more fish here, at the cost of others.",
        _ => "In good time.",
    };

    /// <summary>The reason as the round would have given it at the start; where there was none, what the call found.</summary>
    public string Why(WorkedTank tank) => morning.Leading(tank.Tank) is { } leading
        ? new ReasonWords(tank.Tank.Room.Calendar, tank.Tank.Fish, morning.Morning.Start, morning.Unit, morning.Names).Of(leading)
        : FoundWords.Of(tank.Tank.Story);

    /// <summary>A few lines to hand on.</summary>
    public string Summary => string.Join('\n',
    [
        $"Rehearsal, morning {morning.Row.Seed} (made up, none of these fish exist): {Answer} {Lead}",
        .. Result.Tanks.Select(t => $"{t.Tank.Code}: {YourCall(t)}; best {BestCall(t)}; {Verdict(t)}"),
    ]);

    private string Minutes(int calls) => $"{(calls * morning.MinutesACall).ToString("0.#", Plain)} minutes";

    private static string Fish(double fish) => Math.Round(fish).ToString("#,0", Plain);

    private static string Nth(int place) => place switch
    {
        11 or 12 or 13 => $"{place}th",
        _ when place % 10 == 1 => $"{place}st",
        _ when place % 10 == 2 => $"{place}nd",
        _ when place % 10 == 3 => $"{place}rd",
        _ => $"{place}th",
    };
}
