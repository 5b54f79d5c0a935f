using System.Text.Json;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Accounts;
using Tankside.Storage;

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
        HttpContext context, IDbContextFactory<HatcheryDb> databases, RecordReadings record, CancellationToken cancel)
    {
        var (body, trouble) = await ReadBodyAsync(context.Request, cancel);
        if (body is not { } document)
        {
            return trouble!;
        }

        using (document)
        {
            if (document.RootElement is not { ValueKind: JsonValueKind.Object } root
                || !root.TryGetProperty("readings", out var list) || list.ValueKind != JsonValueKind.Array)
            {
                return Malformed("The body must be an object with a list of \"readings\". Nothing was stored.");
            }

            if (list.GetArrayLength() > MostReadings)
            {
                return TypedResults.Problem(
                    $"The batch holds {list.GetArrayLength()} readings; at most {MostReadings} fit in one. Nothing was stored: send it in parts.", statusCode: 413);
            }

            return TypedResults.Ok(await RecordBatchAsync(list, context.ApiKey(), databases, record, cancel));
        }
    }

    private static async Task<BatchAnswer> RecordBatchAsync(
        JsonElement list, ApiKey key, IDbContextFactory<HatcheryDb> databases, RecordReadings record, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var zone = await db.Programmes.Where(p => p.Id == key.ProgrammeId).Select(p => p.TimeZone).SingleAsync(cancel);
        var clock = ProgrammeClock.Of(zone);
        var parsed = list.EnumerateArray().Select(item => ReadingJson.Parse(item, clock, ofHistory: false)).ToList();
        var codes = parsed.Select(p => p.Tank).OfType<string>().Distinct().ToList();
        var tanks = (await db.Tanks.Where(t => t.ProgrammeId == key.ProgrammeId && codes.Contains(t.Code))
            .Select(t => new { t.Id, t.Code }).ToListAsync(cancel))
            .Where(t => key.Serves(t.Id)).ToDictionary(t => t.Code, t => t.Id, StringComparer.Ordinal);

        var rejected = new List<RejectedItem>();
        var incoming = new List<(int Index, IncomingReading Reading)>();
        foreach (var (index, item) in parsed.Index())
        {
            if (item.Tank is { } code && !tanks.ContainsKey(code))
            {
                item.Errors["tank"] = ["There is no tank with this code for this key."];
            }

            if (item.Errors.Count > 0)
            {
                rejected.Add(new RejectedItem(index, item.IdText, item.Errors));
                continue;
            }

            incoming.Add((index, new IncomingReading
            {
                SenderId = item.Id!.Value,
                TankId = tanks[item.Tank!],
                At = item.At!.Value,
                Seen = item.Seen,
                Water = item.Water,
                Corrects = item.Corrects,
                Source = ReadingSource.Logger,
                EnteredBy = key.Id,
            }));
        }

        var outcomes = await record.RecordAsync([.. incoming.Select(i => i.Reading)], cancel);
        return Answer(incoming, outcomes, rejected);
    }

    private static BatchAnswer Answer(
        List<(int Index, IncomingReading Reading)> incoming, IReadOnlyList<IntakeOutcome> outcomes, List<RejectedItem> rejected)
    {
        var asked = new List<AskedItem>();
        var (accepted, duplicates) = (0, 0);
        foreach (var ((index, reading), outcome) in incoming.Zip(outcomes))
        {
            switch (outcome)
            {
                case IntakeOutcome.Accepted:
                    accepted++;
                    break;
                case IntakeOutcome.Duplicate:
                    duplicates++;
                    break;
                case IntakeOutcome.Asked a:
                    asked.Add(new AskedItem(index, reading.SenderId, a.Field, a.Typed, Math.Round(a.Understood, 1),
                        DoubtWords.Question(a.Doubt, a.Typed, reading.Water!.Unit, a.Understood, a.UnderstoodUnit)));
                    break;
                case IntakeOutcome.Rejected(var errors):
                    rejected.Add(new RejectedItem(index, reading.SenderId.ToString(), errors));
                    break;
            }
        }

        return new BatchAnswer(accepted, duplicates, asked, [.. rejected.OrderBy(r => r.Index)]);
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
