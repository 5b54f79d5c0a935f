using Microsoft.AspNetCore.Http.HttpResults;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;

namespace Tankside.Portal.Flags;

/// <summary>The red-flag queue: open flags in the order of the morning round, or settled ones, the newest first.</summary>
public sealed record FlagListJson(IReadOnlyList<FlagOfPortalJson> Flags);

/// <summary>GET /api/v1/flags.</summary>
public static class FlagsApi
{
    public static void MapFlagsApi(this IEndpointRouteBuilder routes) => routes.MapGet("/api/v1/flags", GetAsync)
        .RequireAuthorization(Policies.CoordinatorKey)
        .WithTags("Flags")
        .WithSummary("Lists red flags: the open ones in the order of the morning round, or the settled ones")
        .WithDescription("state=open (taken when left out): rank 1 is called first. state=settled: the newest first, at most 1,000, with rank 0 and their reason as it stood when they were settled. Needs a coordinator key.")
        .ProducesProblem(400).ProducesProblem(401).ProducesProblem(403).ProducesProblem(429);

    private static async Task<Results<Ok<FlagListJson>, ProblemHttpResult>> GetAsync(
        HttpContext context, Round round, SettledFlags settled, CancellationToken cancel, string state = "open")
    {
        var key = context.ApiKey();
        return state switch
        {
            "open" => TypedResults.Ok(new FlagListJson(Open(await round.LoadAsync(key.ProgrammeId, cancel), key))),
            "settled" => TypedResults.Ok(new FlagListJson(await settled.LoadAsync(key, cancel))),
            _ => TypedResults.Problem(
                "The state of flags is \"open\" or \"settled\".",
                statusCode: StatusCodes.Status400BadRequest,
                extensions: [new("errors", new Dictionary<string, string[]> { ["state"] = ["Must be \"open\" or \"settled\"."] })]),
        };
    }

    /// <summary>In the order of the round; those that rest stand among them. A cause over several tanks is for a key of all tanks.</summary>
    private static IReadOnlyList<FlagOfPortalJson> Open(RoundNow round, ApiKey key) =>
        [.. round.Rows.Concat(round.Resting).SelectMany(row => row switch
        {
            RoundCall call when key.Serves(call.Place.Tank.Id) => call.Troubles.Select(t => Open(call, t)),
            RoundShared shared when key.AllTanks => [FlagOfPortalJson.Of(shared)],
            _ => [],
        }).OrderBy(f => f.Rank == 0).ThenBy(f => f.Rank)];

    private static FlagOfPortalJson Open(RoundCall call, RoundTrouble trouble) =>
        FlagOfPortalJson.Of(trouble.Flag, call.Place, call.Call.Fish, trouble.Reason) with
        {
            Rank = trouble.Rank,
            ExpectedLoss = Math.Round(trouble.ExpectedLoss, 2),
            HoursLeft = HoursJson.Of(trouble.HoursLeft),
        };
}
