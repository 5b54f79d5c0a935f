using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Kit;
using Tankside.Portal.Accounts;
using Tankside.Portal.Places;
using Tankside.Portal.Places.Labels;
using Tankside.Portal.Shell;
using Tankside.Portal.Shell.Paper;
using Tankside.Storage;

namespace Tankside.Portal.Kit.Loans;

/// <summary>What a loan agreement is about.</summary>
public sealed record Loan(string Programme, string School, string Room, string TankCode, double Litres, string Day, IReadOnlyList<KitItem> Kit);

/// <summary>The loan agreement of a tank's kit as a file to print and sign.</summary>
public static class LoanAddress
{
    public static void MapLoans(this IEndpointRouteBuilder routes) =>
        routes.MapGet("/kit/loans/{code}.pdf", GetAsync).RequireAuthorization(Policies.Tanks).ExcludeFromDescription().WithMetadata(new SpokenAttribute());

    private static async Task<Results<FileContentHttpResult, NotFound, ContentHttpResult>> GetAsync(
        string code, string? paper, HttpContext context, IDbContextFactory<HatcheryDb> databases, TimeProvider time, Say say, CancellationToken cancel)
    {
        var user = CurrentUser.From(context.User)!;
        await using var db = await databases.CreateDbContextAsync(cancel);
        var at = await (
            from tank in db.TanksOf(user)
            join room in db.Classrooms on tank.ClassroomId equals room.Id
            join school in db.Schools on room.SchoolId equals school.Id
            join programme in db.Programmes on tank.ProgrammeId equals programme.Id
            where tank.Code == code
            select new { tank, Room = room.Name, School = school.Name, programme }).AsNoTracking().SingleOrDefaultAsync(cancel);
        if (at is null)
        {
            return TypedResults.NotFound();
        }

        var size = string.IsNullOrEmpty(paper) ? PrintChoice.Usual(at.programme) : PaperSize.Named(paper);
        if (size is null)
        {
            return PrintChoice.NoSuchPaper();
        }

        var kit = await db.KitItems.AsNoTracking().Where(k => k.InTankId == at.tank.Id).ToListAsync(cancel);
        var now = time.GetUtcNow().UtcDateTime;
        var today = KitWords.Day(Hatchery.People.ProgrammeClock.Of(at.programme.TimeZone).Day(now), say);
        var loan = new Loan(at.programme.Name, at.School, at.Room, at.tank.Code, at.tank.Litres, today, [.. kit.OrderBy(k => k.Kind).ThenBy(k => k.Serial, StringComparer.Ordinal)]);
        context.Response.Headers.CacheControl = "private, no-store";
        return TypedResults.Bytes(LoanDrawing.Write(loan, size, now, say), PaperDocument.ContentType);
    }
}
