using System.Globalization;
using Microsoft.AspNetCore.Components;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Accounts;

namespace Tankside.Portal.Readings.Photos;

/// <summary>The photos of one tank, and the form for one more.</summary>
public sealed partial class PhotosPage(TankPhotos photos)
{
    private TankAlbum? album;

    [Parameter]
    public string Code { get; set; } = "";

    /// <summary>The photo that is to be taken down.</summary>
    [SupplyParameterFromForm(FormName = "take-down")]
    public Guid? Removed { get; set; }

    private CurrentUser Asking => CurrentUser.From(Http.User)!;

    private string Here => $"/tanks/{Code}/photos#notice";

    protected override async Task LoadAsync()
    {
        album = await photos.LoadAsync(Asking, Code, Http.RequestAborted);
        if (album is null)
        {
            Http.Response.StatusCode = StatusCodes.Status404NotFound;
        }

        Input.Id = Input.Id == Guid.Empty ? Guid.NewGuid() : Input.Id;
    }

    private async Task AddAsync()
    {
        if (await photos.AddAsync(Asking, album!, Input, Refuse, Http.RequestAborted) is { } notice)
        {
            Leave(Here, notice);
        }
    }

    private async Task TakeDownAsync() => Leave(Here, await photos.TakeDownAsync(Asking, Code, Removed ?? Guid.Empty, Http.RequestAborted));

    private string Answer(TankAlbum now) => now.Photos.Count switch
    {
        0 => Say.Of("No photo of {0} yet.", Code),
        1 => Say.Of("One photo of {0}.", Code),
        var many => Say.Of("{0} photos of {1}, the newest first.", many, Code),
    };

    private string When(ListedPhoto photo) => ProgrammeClock.Of(album!.Programme.TimeZone).Local(photo.ReceivedAt)
        .ToString(Say.IsSpanish ? "d 'de' MMMM 'de' yyyy, HH:mm" : "d MMMM yyyy, HH:mm", Say.IsSpanish ? Say.Culture : CultureInfo.InvariantCulture);

    private string Alt(ListedPhoto photo) => $"{Of(photo.Shows)} {Code}, {When(photo)}";

    private string Of(PhotoOf shows) => shows switch
    {
        PhotoOf.Tank => Say["Tank"],
        PhotoOf.Kit => Say["Kit"],
    };
}
