using Tankside.Portal.Bench.Asking;
using Tankside.Portal.Shell;
using Tankside.Science.Losses;

namespace Tankside.Portal.Bench;

public sealed record IntervalGiven(long Alive, long Of, double Confidence);

/// <param name="Low">Low end of the true proportion, 0 to 1.</param>
/// <param name="High">High end of the true proportion, 0 to 1.</param>
public sealed record IntervalAnswer(double Low, double High);

/// <summary>How sure a survival is.</summary>
public sealed class IntervalCalculator : Calculator<IntervalGiven, IntervalAnswer>
{
    private const double UsualConfidence = 0.95;

    public static readonly NumberField Alive = new("alive", "how many survived", 0, 1e9, 81) { Whole = true };

    public static readonly NumberField Of = new("of", "out of how many", 1, 1e9, 263) { Whole = true };

    public static readonly NumberField Confidence =
        new("confidence", "how often the interval should hold the truth; 0.95 when left out", 0.001, 0.999999, UsualConfidence)
        { Required = false };

    public override CalculatorCard Card { get; } = new()
    {
        Path = "interval",
        Title = "How sure is a survival?",
        Asks = "Between what limits does the true survival lie?",
        Formula = "((p + z²/2n) ± z √(p(1 - p)/n + z²/4n²)) / (1 + z²/n)",
        Symbols = "p share alive; n out of how many; z normal quantile (1.96 for 95%).",
        Range = "Any count. It takes the fish as independent; fish that share water die together, so the real spread is wider.",
        Source = "Wilson 1927; Newcombe 1998, Statistics in Medicine 17:857-872, method 3, without continuity correction.",
        HowKnown = "Textbook mathematics, checked on Newcombe's table (second-hand copy).",
        Answers = "low, high: ends of the interval of the true proportion, 0 to 1.",
        Fields = [Alive, Of, Confidence],
    };

    protected override IntervalGiven? Read(Question question)
    {
        var (alive, of) = (question.Number(Alive), question.Number(Of));
        var confidence = question.Maybe(Confidence) ?? UsualConfidence;
        if (alive > of)
        {
            question.Refuse(Alive, question.OnPage
                ? question.Say["That is more than there were."]
                : "More survived than there were. Expected at most the number in 'of', for example alive=81&of=263.");
        }

        return question.Stands ? new((long)alive, (long)of, confidence) : null;
    }

    protected override IntervalAnswer Answer(IntervalGiven given, Say say)
    {
        var (low, high) = Wilson.Interval(given.Alive, given.Of, given.Confidence);
        return new(Figures.SixFigures(low), Figures.SixFigures(high));
    }
}
