using Microsoft.AspNetCore.Components;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Portal.Flags;

namespace Tankside.Portal.Digests.Announcements;

/// <summary>One announcement: who got it, what it said, and the way back while there is one.</summary>
public sealed partial class AnnouncementPage(SentAnnouncements sent, TakeBackAnnouncement takeBack, CarriedNotice notices, NavigationManager navigation, TimeProvider time) : ComponentBase
{
    private ListedAnnouncement? one;
    private IReadOnlyList<ReaderOfAnnouncement> readers = [];
    private TimeWords words = null!;
    private Notice? notice;
    private bool loaded;

    [Parameter]
    public Guid Id { get; set; }

    [CascadingParameter]
    private HttpContext Http { get; set; } = null!;

    private CurrentUser Asking => CurrentUser.From(Http.User)!;

    private string Answer => one!.Announcement.TakenBackAt is { } back
        ? $"Taken back {words.When(back)}; not one letter went out."
        : one.CanBeTakenBack && one.Letters.Count > 0 ? $"{CountWords.Count(one.Count(LetterState.Waiting), "letter waits", "letters wait")}; nothing is sent yet."
        : $"Letters: {LetterStates.Count(one)}.";

    /// <summary>Loads everything before the first rendering, so that the form is there when it is sent.</summary>
    public override async Task SetParametersAsync(ParameterView parameters)
    {
        parameters.SetParameterProperties(this);
        if (!loaded)
        {
            loaded = true;
            notice = notices.Take(Http);
            if (await sent.OneAsync(Asking, Id, Http.RequestAborted) is var (announcement, people, clock))
            {
                (one, readers) = (announcement, people);
                words = new TimeWords(clock, time.GetUtcNow().UtcDateTime);
            }
            else
            {
                Http.Response.StatusCode = StatusCodes.Status404NotFound;
            }
        }

        await base.SetParametersAsync(ParameterView.Empty);
    }

    private async Task TakeBackAsync()
    {
        if (await takeBack.HandleAsync(Asking, Id, Http.RequestAborted) is { } told)
        {
            notices.Carry(Http, told);
            navigation.NavigateTo($"/announcements/{Id}#notice");
        }
    }
}
