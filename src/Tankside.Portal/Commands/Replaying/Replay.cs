using System.Text.Json;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Flags;
using Tankside.Portal.Shell;

namespace Tankside.Portal.Commands.Replaying;

/// <summary>The answer of a replay.</summary>
public sealed record ReplayAnswer(IReadOnlyList<ReplayRound> Rounds);

/// <summary>The morning round as it stood at one asked moment.</summary>
public sealed record ReplayRound(string At, IReadOnlyList<FlagJson> Flags);

/// <summary>
/// Runs a history through the very rules of the portal with the history's own clock and no database: the same intake, assessment, order and
/// words. At each asked moment only what had arrived by then is known.
/// </summary>
public static class Replay
{
    private static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web)
    {
        WriteIndented = true,
        Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    /// <summary>How many days back the beginning of a trouble is looked for: beyond that it is old in any case.</summary>
    private const int DaysBack = 3;

    /// <returns>The exit code: 0, or 2 when the words or the case cannot be read.</returns>
    public static int Run(string[] args, TextWriter output, TextWriter trouble)
    {
        if (Options(args) is not var (caseFile, outFile))
        {
            trouble.WriteLine("Usage: replay --case FILE [--out FILE]");
            return ExitCodes.WrongUsage;
        }

        try
        {
            var answer = JsonSerializer.Serialize(Answer(ReplayCase.Parse(File.ReadAllText(caseFile)), trouble), Json);
            if (outFile is null)
            {
                output.WriteLine(answer);
            }
            else
            {
                File.WriteAllText(outFile, answer + "\n");
            }

            return ExitCodes.Good;
        }
        catch (Exception e) when (e is UnreadableCaseException or IOException or UnauthorizedAccessException)
        {
            trouble.WriteLine($"The case cannot be replayed. {e.Message}");
            return ExitCodes.WrongUsage;
        }
    }

    private static (string Case, string? Out)? Options(string[] args) => args switch
    {
        ["--case", var file] => (file, null),
        ["--case", var file, "--out", var to] => (file, to),
        ["--out", var to, "--case", var file] => (file, to),
        _ => null,
    };

    public static ReplayAnswer Answer(ReplayCase history, TextWriter trouble) => new([.. history.Ask.Select(at =>
    {
        var judged = JudgeAll(history, at, trouble);
        var before = Enumerable.Range(1, DaysBack).Select(back => new Lazy<IReadOnlyList<JudgedTank>>(() => JudgeAll(history, at.AddDays(-back), TextWriter.Null))).ToList();
        var troubled = judged.Select(j => new TroubledTank<string>(
            j.Record.Tank, j.Record.Fish, history.Calendar, [.. j.Findings.Select(f => (j.Record.Tank.Code, f))]));
        var shared = SharedCauses.Find([.. judged.Select(j => SharedCauseTank.Of(j.Record, at).Standing(Standing(before, j)))], LimitSet.Defaults)
            .Select(f => new SharedTrouble<string>("", f, history.Calendar));
        return new ReplayRound(Iso(history.Calendar.Clock, at), [.. MorningRound.Order(troubled, shared, at).SelectMany(e => Worded(history, e, at))]);
    })]);

    private sealed record JudgedTank(CaseTank Tank, TankRecord Record, IReadOnlyList<Finding> Findings);

    private static IEnumerable<FlagJson> Worded(ReplayCase history, RoundEntry<string> entry, DateTime at)
    {
        var words = new ReasonWords(history.Calendar, entry.Fish, at, TemperatureUnit.C);
        return entry switch
        {
            RoundEntry<string>.OfTank { Call: var call } => call.Troubles.Select(t => FlagJson.Of(call, t, words.Of(t.Finding))),
            RoundEntry<string>.OfShared shared => [FlagJson.Of(shared, words.Of(shared.Trouble.Finding))],
            _ => throw new ArgumentOutOfRangeException(nameof(entry), entry.GetType().Name, "neither a tank nor a shared cause"),
        };
    }

    private static IReadOnlyList<JudgedTank> JudgeAll(ReplayCase history, DateTime at, TextWriter trouble)
    {
        var known = history.Tanks.ToDictionary(tank => tank, tank => Known(history, tank, at, trouble));
        var hatches = known.Where(k => k.Key.Lot is not null).ToLookup(k => k.Key.Lot!.Code, k => (Tank: k.Key, Seen: HatchesSeen.Of(
            k.Key.Profile.Id, k.Key.Lot!, TankDays.Fold(k.Key.Profile.Id, k.Value, history.Calendar.Clock), k.Key.Profile.SetPointC)));
        return [.. history.Tanks.Select(tank => Judge(history, tank, known[tank], at, tank.Lot is not { } lot ? LotLearned.Nothing
            : new LotLearned([.. hatches[lot.Code].Where(h => h.Tank != tank).SelectMany(h => h.Seen)])))];
    }

    private static JudgedTank Judge(ReplayCase history, CaseTank tank, List<ReadingFact> readings, DateTime at, LotLearned learned)
    {
        var record = new TankRecord
        {
            Tank = tank.Profile,
            Lot = tank.Lot,
            Fish = tank.Fish,
            Recent = HourlyFacts.Of([.. readings.Where(r => r.At >= at.AddDays(-TankRecord.RecentDays))]),
            Days = TankDays.Fold(tank.Profile.Id, readings, history.Calendar.Clock),
            Calendar = history.Calendar,
            Siblings = Siblings(history, tank, at),
            Learned = learned,
        };
        return new JudgedTank(tank, record, Assessment.Assess(record, at));
    }

    /// <summary>The portal keeps when a flag was opened; here the days before are judged again to see since when a trouble stands.</summary>
    private static List<StandingTrouble> Standing(List<Lazy<IReadOnlyList<JudgedTank>>> before, JudgedTank judged)
    {
        var since = judged.Findings.ToDictionary(f => f.Kind, f => f.StandsOn);
        var still = since.Keys.ToList();
        foreach (var day in before)
        {
            if (still.Count == 0)
            {
                break;
            }

            var earlier = day.Value.First(j => j.Tank == judged.Tank).Findings;
            still = [.. still.Where(kind => earlier.Any(f => f.Kind == kind))];
            still.ForEach(kind => since[kind] = earlier.First(f => f.Kind == kind).StandsOn);
        }

        return [.. judged.Findings.Select(f => new StandingTrouble(f, since[f.Kind]))];
    }

    /// <summary>What had arrived by then, judged by the intake in the order it was read: what it would ask about is not counted.</summary>
    private static List<ReadingFact> Known(ReplayCase history, CaseTank tank, DateTime at, TextWriter trouble)
    {
        var facts = new List<ReadingFact>();
        var last = ((double Water, DateTime At)?)null;
        var arrived = history.Readings.Where(r => r.Tank == tank.Profile.Code && (r.ReceivedAt ?? r.At!.Value) <= at && r.At <= at);
        foreach (var reading in arrived.OrderBy(r => r.At))
        {
            var habits = new TankHabits(
                last?.Water, last?.At, tank.Profile.Litres, tank.Profile.Jacket, reading.Seen.RoomC ?? tank.Profile.RoomC);
            if (reading.Seen.WaterChangedPercent > 0 || (last is { } l && reading.At - l.At > TimeSpan.FromDays(3)))
            {
                habits = habits with { LastWaterC = null, LastAt = null };
            }

            var verdict = reading.Water is { } w ? WaterTemperature.Judge(w.Value, w.Unit, reading.At!.Value, habits) : null;
            if (verdict is WaterVerdict.Doubted or WaterVerdict.Refused || ObservationRules.Check(reading.Seen).Count > 0)
            {
                trouble.WriteLine($"{tank.Profile.Code} at {Iso(history.Calendar.Clock, reading.At!.Value)}: not counted, the intake would ask about it or refuse it.");
                continue;
            }

            var celsius = (verdict as WaterVerdict.Believed)?.Celsius;
            last = celsius is { } c ? (c, reading.At!.Value) : last;
            facts.Add(new ReadingFact(reading.At!.Value, reading.Seen with { WaterC = celsius }, ByClass: false, reading.ReceivedAt));
        }

        return facts;
    }

    private static SiblingLosses Siblings(ReplayCase history, CaseTank tank, DateTime at)
    {
        var (deaths, fishDays) = (0, 0d);
        foreach (var sibling in history.Tanks.Where(t => t != tank && t.Lot is not null && t.Lot.Code == tank.Lot?.Code))
        {
            var counted = history.Readings
                .Where(r => r.Tank == sibling.Profile.Code && (r.ReceivedAt ?? r.At!.Value) <= at && r.At <= at)
                .Where(r => (r.Seen.DeadEggs ?? r.Seen.DeadAlevins ?? r.Seen.DeadFry) is not null).ToList();
            deaths += counted.Sum(r => (r.Seen.DeadEggs ?? 0) + (r.Seen.DeadAlevins ?? 0) + (r.Seen.DeadFry ?? 0));
            fishDays += counted.Count == 0 ? 0
                : sibling.Fish * Math.Max(1, history.Calendar.Clock.Day(counted.Max(r => r.At!.Value)).DayNumber - sibling.Lot!.DeliveredOn.DayNumber + 1.0);
        }

        return new SiblingLosses(deaths, fishDays);
    }

    private static string Iso(ProgrammeClock clock, DateTime utc) =>
        TimeZoneInfo.ConvertTime(new DateTimeOffset(utc, TimeSpan.Zero), clock.Zone)
            .ToString("yyyy-MM-ddTHH:mm:sszzz", System.Globalization.CultureInfo.InvariantCulture);
}
