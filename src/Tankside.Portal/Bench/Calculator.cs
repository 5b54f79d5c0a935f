using Tankside.Portal.Bench.Asking;
using Tankside.Portal.Shell;

namespace Tankside.Portal.Bench;

/// <summary>
/// What a calculator says about itself, in English; its page, its address and the list of all are made from it, and a page says it in the reader's language.
/// </summary>
public sealed record CalculatorCard
{
    /// <summary>Last part of both addresses.</summary>
    public required string Path { get; init; }

    public required string Title { get; init; }

    /// <summary>The question that it answers, one line.</summary>
    public required string Asks { get; init; }

    public required string Formula { get; init; }

    public required string Symbols { get; init; }

    public required string Range { get; init; }

    public required string Source { get; init; }

    public required string HowKnown { get; init; }

    /// <summary>The answer's fields with their units, for readers of the API.</summary>
    public required string Answers { get; init; }

    public required IReadOnlyList<Field> Fields { get; init; }

    public string Page => "/bench/" + Path;

    public string Address => "/api/v1/bench/" + Path;
}

/// <summary>A question as it was understood, with its answer; both null when it could not be answered.</summary>
public sealed record Worked<TGiven, TAnswer>(TGiven? Given, TAnswer? Answer)
    where TGiven : class
    where TAnswer : class;

/// <summary>One calculator. The page and the API ask the same one, so that they cannot disagree.</summary>
public abstract class Calculator<TGiven, TAnswer>
    where TGiven : class
    where TAnswer : class
{
    public abstract CalculatorCard Card { get; }

    /// <summary>Answers, or leaves in the question what is wrong with it.</summary>
    public Worked<TGiven, TAnswer> Work(Question question)
    {
        var given = Read(question);
        return given is not null && question.Stands ? new(given, Answer(given, question.Say)) : new(null, null);
    }

    /// <summary>The values, each read even when another was refused. What is returned beside a refusal is not used.</summary>
    protected abstract TGiven? Read(Question question);

    /// <param name="say">The language of whoever asked; a program's is English.</param>
    protected abstract TAnswer Answer(TGiven given, Say say);
}
