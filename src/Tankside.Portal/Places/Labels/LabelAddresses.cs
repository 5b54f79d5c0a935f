using Microsoft.AspNetCore.Http.HttpResults;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell;
using Tankside.Portal.Shell.Paper;

namespace Tankside.Portal.Places.Labels;

/// <summary>The labels as files to print: of one tank, of one school, of all.</summary>
public static class LabelAddresses
{
    public static void MapLabels(this IEndpointRouteBuilder routes)
    {
        var labels = routes.MapGroup("/labels").RequireAuthorization(Policies.Labels).ExcludeFromDescription();
        labels.MapGet("/all.pdf", (string? paper, HttpContext context, SchoolLabels schools, TimeProvider time, CancellationToken cancel) =>
            SchoolsAsync(null, paper, context, schools, time, cancel));
        labels.MapGet("/{schoolId:guid}.pdf", (Guid schoolId, string? paper, HttpContext context, SchoolLabels schools, TimeProvider time, CancellationToken cancel) =>
            SchoolsAsync(schoolId, paper, context, schools, time, cancel));
        labels.MapGet("/tanks/{code}.pdf", TankAsync);
    }

    private static async Task<Results<FileContentHttpResult, NotFound, ContentHttpResult>> SchoolsAsync(
        Guid? schoolId, string? paper, HttpContext context, SchoolLabels schools, TimeProvider time, CancellationToken cancel)
    {
        if (PrintChoice.Paper(paper) is not { } size)
        {
            return PrintChoice.NoSuchPaper();
        }

        var book = await schools.LoadAsync(CurrentUser.From(context.User)!, cancel);
        var chosen = book.Schools.Where(s => schoolId is null || s.Id == schoolId).ToList();
        var labels = schools.LabelsOf(chosen);
        var of = schoolId is null ? book.Programme.Name : chosen.FirstOrDefault()?.Name;
        if (labels.Count == 0)
        {
            return TypedResults.NotFound();
        }

        var file = File(context, $"Labels of {of}", labels, size, time);
        await schools.NotePrintedAsync(labels, Instants.ToMillisecond(time.GetUtcNow().UtcDateTime), cancel);
        return file;
    }

    private static async Task<Results<FileContentHttpResult, NotFound, ContentHttpResult>> TankAsync(
        string code, string? paper, HttpContext context, SchoolLabels schools, TimeProvider time, CancellationToken cancel)
    {
        if (PrintChoice.Paper(paper) is not { } size)
        {
            return PrintChoice.NoSuchPaper();
        }

        if (await schools.OfTankAsync(CurrentUser.From(context.User)!, code, cancel) is not { } label)
        {
            return TypedResults.NotFound();
        }

        var file = File(context, $"Label of {label.Code}", [label], size, time);
        await schools.NotePrintedAsync([label], Instants.ToMillisecond(time.GetUtcNow().UtcDateTime), cancel);
        return file;
    }

    private static FileContentHttpResult File(HttpContext context, string title, IReadOnlyList<TankLabel> labels, PaperSize paper, TimeProvider time)
    {
        // A code on it may be replaced the next minute: an old file must not be printed from a cache.
        context.Response.Headers.CacheControl = "private, no-store";
        return TypedResults.Bytes(LabelDrawing.Sheets(title, labels, paper, time.GetUtcNow().UtcDateTime), PaperDocument.ContentType);
    }
}
