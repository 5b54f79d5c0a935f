using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.EntityFrameworkCore;
using Tankside.Portal.Accounts;
using Tankside.Portal.Places;
using Tankside.Storage;

namespace Tankside.Portal.Flags;

/// <summary>GET /api/v1/tanks and /api/v1/tanks/{code}/forecast.</summary>
public static class TanksApi
{
    public static void MapTanksApi(this IEndpointRouteBuilder routes)
    {
        routes.MapGet("/api/v1/tanks", ListAsync)
            .RequireAuthorization(Policies.CoordinatorKey)
            .WithTags("Tanks")
            .WithSummary("Lists the tanks of the key")
            .WithDescription("In the order of their codes, with what is in them, when they were last read and what is flagged. Needs a coordinator key.")
            .ProducesProblem(401).ProducesProblem(403).ProducesProblem(429);
        routes.MapGet("/api/v1/tanks/{code}/forecast", ForecastAsync)
            .RequireAuthorization(Policies.AnyKey)
            .WithTags("Tanks")
            .WithSummary("Tells a tank's stage, its dates and the hours left when it warms")
            .WithDescription("Dates are local days of the programme, with 80% and 95% intervals and what they are made of. A tank that is not the key's is not found.")
            .ProducesProblem(401).ProducesProblem(404).ProducesProblem(429);
    }

    private static async Task<Ok<TankListJson>> ListAsync(
        HttpContext context, IDbContextFactory<HatcheryDb> databases, TimeProvider time, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var ids = await db.TanksOf(context.ApiKey()).Select(t => t.Id).ToListAsync(cancel);
        var glances = await TankGlances.LoadAsync(db, ids, time.GetUtcNow().UtcDateTime, cancel);
        return TypedResults.Ok(new TankListJson([.. glances.Select(TankJson.Of)]));
    }

    private static async Task<Results<Ok<ForecastJson>, ProblemHttpResult>> ForecastAsync(
        string code, HttpContext context, IDbContextFactory<HatcheryDb> databases, TimeProvider time, CancellationToken cancel)
    {
        var now = time.GetUtcNow().UtcDateTime;
        await using var db = await databases.CreateDbContextAsync(cancel);
        var ids = await db.TanksOf(context.ApiKey()).Where(t => t.Code == code).Select(t => t.Id).ToListAsync(cancel);
        return ids is []
            ? TypedResults.Problem("There is no tank with this code for this key.", statusCode: StatusCodes.Status404NotFound)
            : TypedResults.Ok(ForecastJson.Of((await TankRecords.LoadAsync(db, ids, now, cancel)).Single(), now));
    }
}
