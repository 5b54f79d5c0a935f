namespace Tankside.Science.Eggs;

/// <summary>What a model says about itself, apart from its arithmetic.</summary>
internal sealed record StageModelCard
{
    public required string Name { get; init; }

    public required string Source { get; init; }

    public required string HowKnown { get; init; }

    public required Species Species { get; init; }

    public required Stage Stage { get; init; }

    public required double FromC { get; init; }

    public required double ToC { get; init; }

    public required double LogSd { get; init; }

    public required string LogSdSource { get; init; }

    public required bool Extrapolates { get; init; }

    /// <summary>Whether it is the hatch's rule times a factor.</summary>
    public bool FactorOfHatch { get; init; }

    /// <summary>Under this, °C, there is no answer: the freezing point for curves, the first row for tables.</summary>
    public double AnswersFrom { get; init; }

    public double AnswersTo { get; init; } = double.PositiveInfinity;
}
