using System.Globalization;
using Tankside.Hatchery.Flags.Rehearsals;
using Tankside.Hatchery.Readings;

namespace Tankside.Portal.Flags.Rehearsals;

/// <summary>What is known of a made-up tank in plain facts, the newest first. It says what was written down and weighs nothing.</summary>
public sealed class TankFacts(WorkedMorning morning)
{
    /// <summary>Local days up to the last reading that a line speaks of; what is older is the table's.</summary>
    private const int FactDays = 2;

    private static readonly CultureInfo Plain = CultureInfo.InvariantCulture;

    public string Of(MadeUpTank tank)
    {
        if (tank.LastReading is not { } last)
        {
            return "Nothing read yet.";
        }

        var clock = morning.Morning.Clock;
        var recent = tank.Record.Recent.Where(r => clock.Day(r.At) > clock.Day(last.At).AddDays(-FactDays)).ToList();
        List<string?> facts =
        [
            clock.Day(last.At) < morning.Time.Today ? "not read today" : null,
            Water(tank.Record.Recent),
            .. Ticks(recent),
            Dead(recent),
            Tests(recent),
            Stage(recent),
            tank.Asked is { } asked ? $"{asked.Typed.ToString("0.#", Plain)} °{asked.Unit} typed {morning.Time.When(asked.At)}, asked back, not counted" : null,
            last.Seen.Note is { } note ? $"“{note}”" : null,
        ];
        var line = CountWords.Capital(string.Join("; ", facts.OfType<string>()));
        return line.EndsWith('”') ? line : $"{line}.";
    }

    private string Water(IReadOnlyList<ReadingFact> all)
    {
        var read = all.Where(r => r.Seen.WaterC is not null).ToList();
        var last = read[^1];
        var before = read.Count > 1 && Math.Abs(read[^2].Seen.WaterC!.Value - last.Seen.WaterC!.Value) > 1
            ? $", {morning.Scale.Both(read[^2].Seen.WaterC!.Value)} {morning.Time.When(read[^2].At)}"
            : "";
        return $"{morning.Scale.Both(last.Seen.WaterC!.Value)} {morning.Time.When(last.At)}{before}";
    }

    private static IEnumerable<string?> Ticks(List<ReadingFact> recent)
    {
        yield return Said(s => s.Moving) == false ? "water not moving" : null;
        yield return Said(s => s.Bubbles) == false ? "no bubbles" : null;
        yield return Said(s => s.ChillerRunning) == false ? "chiller not running" : null;
        yield return Said(s => s.IceOnCoil) == true ? "ice on the coil" : null;
        yield return Said(s => s.Clear) == false ? "water not clear" : null;
        yield return Said(s => s.Fungus) == true ? "fungus" : null;

        bool? Said(Func<Observation, bool?> what) => recent.Select(r => what(r.Seen)).LastOrDefault(said => said is not null);
    }

    private static string? Dead(List<ReadingFact> recent) =>
        recent.Sum(r => DeadIn(r.Seen) ?? 0) is > 0 and var dead ? $"{dead.ToString(Plain)} dead in the last two days" : null;

    public static int? DeadIn(Observation seen) => (seen.DeadEggs ?? seen.DeadAlevins ?? seen.DeadFry) is null
        ? null
        : (seen.DeadEggs ?? 0) + (seen.DeadAlevins ?? 0) + (seen.DeadFry ?? 0);

    private static string? Tests(List<ReadingFact> recent) => recent.LastOrDefault(r => r.Seen.AmmoniaTotalMgL is >= 0.5) is { Seen: var test }
        ? $"total ammonia {test.AmmoniaTotalMgL!.Value.ToString("0.##", Plain)} mg/L, {(test.Ph is { } ph ? $"pH {ph.ToString("0.0", Plain)}" : "pH not tested")}"
        : null;

    private static string? Stage(List<ReadingFact> recent) =>
        recent[^1].Seen.Hatched == Share.None ? "none hatched yet" : null;

    /// <summary>"yes", "no", or nothing when nobody looked.</summary>
    public static string Tick(bool? said) => said switch
    {
        true => "yes",
        false => "no",
        null => "",
    };
}
