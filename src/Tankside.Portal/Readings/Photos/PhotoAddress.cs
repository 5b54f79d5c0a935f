using Tankside.Portal.Accounts;

namespace Tankside.Portal.Readings.Photos;

/// <summary>The picture of a photo, for those who may see its tank.</summary>
public static class PhotoAddress
{
    public static void MapPhotos(this IEndpointRouteBuilder routes) =>
        routes.MapGet("/tanks/{code}/photos/{id:guid}.jpg", GetAsync).RequireAuthorization(Policies.Photos).ExcludeFromDescription();

    private static async Task<IResult> GetAsync(string code, Guid id, HttpContext context, TankPhotos photos, CancellationToken cancel)
    {
        if (await photos.PictureAsync(CurrentUser.From(context.User)!, code, id, cancel) is not { } picture)
        {
            return TypedResults.NotFound();
        }

        // Only in the asker's own browser, and asked for again each time: a photo taken down is gone there too.
        context.Response.Headers.CacheControl = "private, no-cache";
        return TypedResults.Bytes(picture, "image/jpeg");
    }
}
