using Tankside.Portal.Bench.Asking;

namespace Tankside.Portal.Bench;

/// <summary>The calculators of the trade over HTTP; docs of each are made from its card.</summary>
public static class BenchFeature
{
    /// <summary>The same question has the same answer until the program is changed, so that anything between may keep it for an hour.</summary>
    private const string Kept = "public, max-age=3600";

    public static void MapBench(this IEndpointRouteBuilder routes)
    {
        var bench = routes.MapGroup("").WithTags("Bench").AllowAnonymous();
        bench.MapCalculator(new DevelopmentCalculator());
        bench.MapCalculator(new OxygenCalculator());
        bench.MapCalculator(new AmmoniaCalculator());
        bench.MapCalculator(new DechlorinationCalculator());
        bench.MapCalculator(new WarmingCalculator());
        bench.MapCalculator(new WaterChangeCalculator());
        bench.MapCalculator(new IntervalCalculator());
    }

    /// <summary>Every calculator's card, in the order of the bench page.</summary>
    public static IReadOnlyList<CalculatorCard> Cards { get; } =
    [
        new DevelopmentCalculator().Card,
        new WarmingCalculator().Card,
        new OxygenCalculator().Card,
        new AmmoniaCalculator().Card,
        new WaterChangeCalculator().Card,
        new DechlorinationCalculator().Card,
        new IntervalCalculator().Card,
    ];

    private static void MapCalculator<TGiven, TAnswer>(this RouteGroupBuilder bench, Calculator<TGiven, TAnswer> calculator)
        where TGiven : class
        where TAnswer : class =>
        bench.MapGet(calculator.Card.Address, (HttpContext context) => Reply(calculator, Question.FromApi(context.Request.Query), context.Response))
            .WithName("bench-" + calculator.Card.Path)
            .WithSummary(calculator.Card.Asks)
            .WithDescription(BenchOpenApi.Description(calculator.Card))
            .Produces<TAnswer>()
            .ProducesValidationProblem()
            .ProducesProblem(StatusCodes.Status422UnprocessableEntity)
            .AddOpenApiOperationTransformer((operation, _, _) => BenchOpenApi.AddParameters(operation, calculator.Card));

    private static IResult Reply<TGiven, TAnswer>(
        Calculator<TGiven, TAnswer> calculator, Question question, HttpResponse response)
        where TGiven : class
        where TAnswer : class
    {
        if (calculator.Work(question).Answer is { } answer)
        {
            response.Headers.CacheControl = Kept;
            return TypedResults.Ok(answer);
        }

        if (question.NotKnown is not { } gap)
        {
            return TypedResults.ValidationProblem(
                question.Errors.ToDictionary(), "Nothing was reckoned. Mend what errors names.", title: "Badly asked");
        }

        return TypedResults.Problem(
            gap.Why, statusCode: StatusCodes.Status422UnprocessableEntity, title: "No published answer",
            extensions: [new("errors", new Dictionary<string, string[]> { [gap.Field] = [gap.Why] })]);
    }
}
