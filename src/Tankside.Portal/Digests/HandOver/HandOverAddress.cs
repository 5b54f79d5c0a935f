using Microsoft.AspNetCore.Http.HttpResults;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell.Paper;

namespace Tankside.Portal.Digests.HandOver;

/// <summary>The pack as a file to print.</summary>
public static class HandOverAddress
{
    private const double Margin = 14;

    public static void MapHandOver(this IEndpointRouteBuilder routes) =>
        routes.MapGet("/handover.pdf", GetAsync).RequireAuthorization(Policies.Round).ExcludeFromDescription();

    private static async Task<FileContentHttpResult> GetAsync(HttpContext context, HandOverDesk desk, CancellationToken cancel)
    {
        var pack = await desk.LoadAsync(CurrentUser.From(context.User)!, cancel);
        context.Response.Headers.CacheControl = "private, no-store";
        return TypedResults.Bytes(Write(pack), PaperDocument.ContentType);
    }

    private static byte[] Write(HandOverPack pack)
    {
        var title = $"Hand-over, {pack.Programme}";
        return PaperDocument.Write(title, "en", pack.Now, document =>
        {
            var flow = new PaperFlow(PaperSize.Letter, Margin);
            flow.Text(title, 16, bold: true);
            flow.Text($"As it stands on {pack.At}.", 10, after: 5);
            foreach (var part in pack.Parts)
            {
                flow.Text(part.Heading, 13, bold: true, after: 1, withNext: true);
                flow.Text(part.Meaning, 9, after: 2, withNext: part.Rows.Count > 0);
                if (part.Rows.Count == 0)
                {
                    flow.Text(part.Empty, 10, bold: true, after: 5);
                    continue;
                }

                flow.Table([.. part.Heads.Zip(part.Widths, (head, share) => new PaperColumn(head, share * flow.Width))], part.Rows);
            }

            flow.WriteTo(document, $"{title}, {pack.At}");
        });
    }
}
