using System.Text.Json;
using Microsoft.AspNetCore.Http.HttpResults;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;

namespace Tankside.Portal.Readings;

/// <summary>What became of a batch; accepted + duplicates + asked + rejected is the batch.</summary>
public sealed record BatchAnswer(int Accepted, int Duplicates, IReadOnlyList<AskedItem> Asked, IReadOnlyList<RejectedItem> Rejected);

/// <summary>Kept unjudged until a person answers.</summary>
public sealed record AskedItem(int Index, Guid Id, string Field, string Typed, double Understood, string Question);

/// <summary>Not stored, and why, by field.</summary>
public sealed record RejectedItem(int Index, string? Id, IReadOnlyDictionary<string, string[]> Errors);

/// <summary>POST /api/v1/readings: a batch from a logger or another program.</summary>
public static class LoggerApi
{
    public const int MostReadings = 5000;

    private const long MostBytes = 16 * 1024 * 1024;

    public static void MapLoggerApi(this IEndpointRouteBuilder routes) => routes.MapPost("/api/v1/readings", PostAsync)
        .RequireAuthorization(Policies.AnyKey)
        .DisableAntiforgery()
        .WithMetadata(new Microsoft.AspNetCore.Mvc.RequestSizeLimitAttribute(MostBytes))
        .WithTags("Readings")
        .WithSummary("Adds a batch of readings")
        .WithDescription("At most 5,000 readings. What is answered as accepted is committed. Sending the same readings again changes nothing.")
        .Accepts<JsonElement>("application/json")
        .ProducesProblem(400).ProducesProblem(401).ProducesProblem(413).ProducesProblem(429);

    private static async Task<Results<Ok<BatchAnswer>, ValidationProblem, ProblemHttpResult>> PostAsync(
        HttpContext context, LoggersTogether together, CancellationToken cancel)
    {
        var (body, trouble) = await ReadBodyAsync(context.Request, cancel);
        if (body is not { } document)
        {
            return trouble!;
        }

        using (document)
        {
            if (ReadingJson.ListOf(document.RootElement) is not { } list)
            {
                return Malformed("The body must be an object with a list of \"readings\". Nothing was stored.");
            }

            if (list.GetArrayLength() > MostReadings)
            {
                return TypedResults.Problem(
                    $"The batch holds {list.GetArrayLength()} readings; at most {MostReadings} fit in one. Nothing was stored: send it in parts.", statusCode: 413);
            }

            var key = context.ApiKey();
            var clock = ProgrammeClock.Of(context.ZoneOfKey());
            return TypedResults.Ok(await together.RecordAsync(key, [.. list.EnumerateArray().Select(item => ReadingJson.Parse(item, clock, ofHistory: false))], cancel));
        }
    }

    private static async Task<(JsonDocument? Body, ProblemHttpResult? Trouble)> ReadBodyAsync(HttpRequest request, CancellationToken cancel)
    {
        try
        {
            return (await JsonDocument.ParseAsync(request.Body, default, cancel), null);
        }
        catch (JsonException e)
        {
            return (null, Malformed($"The body is not JSON (line {e.LineNumber + 1}, byte {e.BytePositionInLine}). Nothing was stored."));
        }
        catch (BadHttpRequestException e)
        {
            return (null, TypedResults.Problem("The body is too large or broke off. Nothing was stored.", statusCode: e.StatusCode));
        }
    }

    private static ProblemHttpResult Malformed(string message) => TypedResults.Problem(
        message, statusCode: 400, extensions: [new("errors", new Dictionary<string, string[]> { ["body"] = [message] })]);
}
