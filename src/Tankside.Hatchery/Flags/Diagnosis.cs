using Tankside.Hatchery.Readings;

namespace Tankside.Hatchery.Flags;

/// <summary>How much a suspect is suspected: a share of one.</summary>
public sealed record Suspicion(Suspect Suspect, double Share);

/// <summary>
/// Tells faults of one tank's cooling and flow apart, and says what to ask next. What the readings of other tanks of the area say is not
/// looked at here.
/// </summary>
/// <param name="Leading">The one that clearly leads; null when none does.</param>
/// <param name="Remaining">The leading one alone, or the two or three that remain, most suspected first.</param>
/// <param name="Ask">The question whose answer tells most; null when all have been answered or none would help.</param>
/// <param name="Course">How the water came to where it is.</param>
/// <param name="Known">What was seen or told: the questions already answered.</param>
public sealed record Diagnosis(
    Suspect? Leading,
    IReadOnlyList<Suspicion> Remaining,
    NextQuestion? Ask,
    WaterCourse Course,
    IReadOnlyDictionary<NextQuestion, bool> Known)
{
    private const int MostRemaining = 3;

    /// <summary>A leader is this many times as suspected as the next.</summary>
    private const double ClearlyAhead = 2;

    /// <summary>Remaining suspects together hold this share, where three are enough for it.</summary>
    private const double Enough = 0.8;

    /// <summary>Bits below which an answer is not worth a question.</summary>
    private const double WorthAsking = 0.005;

    /// <summary>Troubles of warmth, cold and flow are what a faulty part shows itself by.</summary>
    public static bool IsFor(FlagKind kind) => Dangers.Of(kind) is Danger.Heat or Danger.Cold or Danger.Air;

    /// <summary>Weighs the suspects by the water's course, the newest ticks and what was told by telephone.</summary>
    /// <param name="told">Answers got since; they count over what was ticked.</param>
    public static Diagnosis Of(Situation s, IReadOnlyDictionary<NextQuestion, bool>? told = null)
    {
        var course = WaterCourses.Of(s);
        var known = Ticks.Of(s);
        foreach (var (question, yes) in told ?? new Dictionary<NextQuestion, bool>())
        {
            known[question] = yes;
        }

        var shares = Weigh(course, known);
        var ordered = Suspicions.All.Select((suspect, i) => new Suspicion(suspect, shares[i])).OrderByDescending(x => x.Share).ToList();
        var leads = ordered[0].Share >= s.Limits[Limits.Faults.Lead] && ordered[0].Share >= ClearlyAhead * ordered[1].Share;
        return new Diagnosis(leads ? ordered[0].Suspect : null, leads ? ordered[..1] : Remain(ordered), Question(shares, known), course, known);
    }

    private static double[] Weigh(WaterCourse course, IReadOnlyDictionary<NextQuestion, bool> known) => Normal([.. Suspicions.All.Select(suspect =>
        known.Aggregate(
            Suspicions.Before(suspect) * Suspicions.Of(course, suspect),
            (weight, answer) => weight * Suspicions.Of(answer.Key, answer.Value, suspect)))]);

    private static List<Suspicion> Remain(List<Suspicion> ordered)
    {
        var count = 2;
        while (count < MostRemaining && ordered.Take(count).Sum(x => x.Share) < Enough)
        {
            count++;
        }

        return ordered[..count];
    }

    /// <summary>The unanswered question that is expected to leave least doubt.</summary>
    private static NextQuestion? Question(double[] shares, IReadOnlyDictionary<NextQuestion, bool> known)
    {
        var best = Enum.GetValues<NextQuestion>()
            .Where(q => !known.ContainsKey(q))
            .Select(q => (Question: (NextQuestion?)q, Gain: Gain(q, shares)))
            .OrderByDescending(x => x.Gain).ThenBy(x => x.Question)
            .FirstOrDefault();
        return best.Gain >= WorthAsking ? best.Question : null;
    }

    /// <summary>How many bits of doubt an answer is expected to take away.</summary>
    private static double Gain(NextQuestion question, double[] shares)
    {
        var gain = Doubt(shares);
        foreach (var yes in (bool[])[true, false])
        {
            var weights = Suspicions.All.Select((suspect, i) => shares[i] * Suspicions.Of(question, yes, suspect)).ToArray();
            gain -= weights.Sum() * Doubt(Normal(weights));
        }

        return gain;
    }

    private static double Doubt(double[] shares) => shares.Where(p => p > 0).Sum(p => -p * Math.Log2(p));

    private static double[] Normal(double[] weights)
    {
        var sum = weights.Sum();
        return [.. weights.Select(w => w / sum)];
    }

    /// <summary>Questions that the readings answer.</summary>
    private static class Ticks
    {
        public static Dictionary<NextQuestion, bool> Of(Situation s)
        {
            var known = new Dictionary<NextQuestion, bool>();
            Tick(NextQuestion.ChillerRunning, seen => seen.ChillerRunning);
            Tick(NextQuestion.WaterMoving, seen => seen.Moving);
            Tick(NextQuestion.Bubbles, seen => seen.Bubbles);
            Tick(NextQuestion.IceOnCoil, seen => seen.IceOnCoil);
            Tick(NextQuestion.LevelRight, seen => seen.LevelOk);

            // A usual room does not say that no sun stands on the glass; a hot one says enough.
            Tick(NextQuestion.HeatNear, seen => seen.RoomC >= s.Tank.RoomC + s.Limits[Limits.Faults.HotRoom] ? true : null);
            return known;

            void Tick(NextQuestion question, Func<Observation, bool?> what)
            {
                if (s.LastThatSays(what) is { } said && said.At >= s.Record.Recent[^1].At.AddHours(-s.Limits[Limits.Faults.TickAge]))
                {
                    known[question] = what(said.Seen)!.Value;
                }
            }
        }
    }
}
