using System.Globalization;
using System.Text.Json.Nodes;
using Microsoft.OpenApi;
using Tankside.Portal.Bench.Asking;

namespace Tankside.Portal.Bench;

/// <summary>Writes a calculator's fields into the API's description, since they are read by hand.</summary>
internal static class BenchOpenApi
{
    public static string Description(CalculatorCard card) =>
        $"{card.Answers}\n\nFormula: {card.Formula}\n\nSymbols: {card.Symbols}\n\nRange: {card.Range}\n\n"
        + $"Source: {card.Source} {card.HowKnown}";

    public static Task AddParameters(OpenApiOperation operation, CalculatorCard card)
    {
        operation.Parameters ??= [];
        foreach (var field in card.Fields)
        {
            operation.Parameters.Add(new OpenApiParameter
            {
                Name = field.Name,
                In = ParameterLocation.Query,
                Required = field.Required,
                Description = Sentence(field),
                Schema = SchemaOf(field),
            });
        }

        return Task.CompletedTask;
    }

    private static string Sentence(Field field) => field switch
    {
        NumberField { Unit.Length: > 0 } number => $"{field.Words}, {number.Unit}",
        WordField { WhenLeftOut: { } usual } => $"{field.Words}; {usual} when left out",
        _ => field.Words,
    };

    private static OpenApiSchema SchemaOf(Field field) => field switch
    {
        NumberField number => new OpenApiSchema
        {
            Type = number.Whole ? JsonSchemaType.Integer : JsonSchemaType.Number,
            Minimum = number.Low.ToString(CultureInfo.InvariantCulture),
            Maximum = number.HighOpen ? null : number.High.ToString(CultureInfo.InvariantCulture),
            ExclusiveMaximum = number.HighOpen ? number.High.ToString(CultureInfo.InvariantCulture) : null,
            Examples = [JsonValue.Create(number.Example)],
        },
        WordField word => new OpenApiSchema
        {
            Type = JsonSchemaType.String,
            Enum = [.. word.Codes.Select(code => (JsonNode)JsonValue.Create(code)!)],
        },
        _ => new OpenApiSchema { Type = JsonSchemaType.String, Examples = [JsonValue.Create(field.Sample)] },
    };
}
