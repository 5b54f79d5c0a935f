using System.Text.Json;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.WebUtilities;
using Tankside.Portal.Bench;
using Tankside.Portal.Bench.Asking;
using Tankside.Portal.Shell;

namespace Tankside.Fuzz.Tests.Targets;

/// <summary>Questions to the calculators of the bench, as a program and as a page asks them.</summary>
public static class Asked
{
    private static readonly string[] Names = [.. BenchFeature.Cards.SelectMany(c => c.Fields).SelectMany(f => new[] { f.Name, f.PageName }).Distinct(), "unit", "volumeUnit", "elevationUnit"];

    private static readonly string[] Values =
        [.. BenchFeature.Cards.SelectMany(c => c.Fields).Select(f => f.Sample).Distinct(), .. BenchFeature.Cards.SelectMany(c => c.Fields).OfType<NumberField>().SelectMany(f => new[] { Figures.Plain(f.Low), Figures.Plain(f.High) }).Distinct(), "F", "C", "gal", "ft", "9,5", "5,000", "1e-9"];

    public static Target Target { get; } = new("bench", Make, Read) { Words = [.. Names.Select(n => $"&{n}="), .. Values.Select(Uri.EscapeDataString)], LongestInput = 16_000, MostBytesEach = 40_000, MostBytesOnce = 64 << 20 };

    private static byte[] Make(Dice dice)
    {
        var card = dice.Of(BenchFeature.Cards);
        var page = dice.OneIn(2);
        return Texts.Form(card.Fields.Select(f => (page ? f.PageName : f.Name, dice.OneIn(6) ? dice.Of(Mutations.Odd) : dice.OneIn(3) ? dice.Of(Values) : f.Sample)));
    }

    private static string Read(byte[] bytes)
    {
        var query = new QueryCollection(QueryHelpers.ParseQuery(Texts.Read(bytes)));
        Question[] questions() => [Question.FromApi(query), Question.FromPage(query), Question.FromPage(query, Say.InSpanish)];
        return string.Join('|', questions().Select(q => Work(new DevelopmentCalculator(), q)).Concat(questions().Select(q => Work(new OxygenCalculator(), q))).Concat(questions().Select(q => Work(new AmmoniaCalculator(), q)))
            .Concat(questions().Select(q => Work(new DechlorinationCalculator(), q))).Concat(questions().Select(q => Work(new WarmingCalculator(), q))).Concat(questions().Select(q => Work(new WaterChangeCalculator(), q)))
            .Concat(questions().Select(q => Work(new IntervalCalculator(), q))));
    }

    private static string Work<TGiven, TAnswer>(Calculator<TGiven, TAnswer> calculator, Question question)
        where TGiven : class
        where TAnswer : class
    {
        var answer = calculator.Work(question).Answer;
        Held.That(answer is null == !question.Stands, "It was answered in spite of a refusal, or refused without a word.");
        Held.Said(question.Errors.SelectMany(e => e.Value));
        if (answer is null)
        {
            return string.Join(' ', question.Errors.Keys.Order(StringComparer.Ordinal));
        }

        _ = JsonSerializer.Serialize(answer, answer.GetType(), JsonSerializerOptions.Web); // Refuses a number that is none.
        return "answered";
    }
}
