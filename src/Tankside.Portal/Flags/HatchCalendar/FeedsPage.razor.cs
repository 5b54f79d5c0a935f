using Microsoft.AspNetCore.Components;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Portal.People;
using Tankside.Storage;

namespace Tankside.Portal.Flags.HatchCalendar;

public sealed partial class FeedsPage(Feeds all, IDbContextFactory<HatcheryDb> databases) : SheetPage<FeedForm>
{
    private IReadOnlyList<ListedFeed> feeds = [];
    private IReadOnlyList<FeedChoice> choices = [];
    private Programme programme = null!;

    /// <summary>The address that is to stop.</summary>
    [SupplyParameterFromForm(FormName = "revoke")]
    public Guid? Revoked { get; set; }

    private CurrentUser Asking => CurrentUser.From(Http.User)!;

    private string Answer => feeds.Count == 0
        ? Say["No calendar reads these dates yet."]
        : Say.Count(feeds.Count, "{0} address is in use.", "{0} addresses are in use.");

    protected override async Task LoadAsync()
    {
        // The address made just now stands on the page once; it must not lie in a cache on the disk of a shared machine.
        Http.Response.Headers.CacheControl = "no-store";
        feeds = await all.ListAsync(Asking, Http.RequestAborted);
        choices = await all.ChoicesAsync(Asking, Http.RequestAborted);
        await using var db = await databases.CreateDbContextAsync(Http.RequestAborted);
        programme = await db.Programmes.AsNoTracking().SingleAsync(p => p.Id == Asking.ProgrammeId, Http.RequestAborted);
    }

    private string Day(DateTime at) => LocalTimes.Day(programme, at, Say);

    private async Task MakeAsync() => Leave("/calendar/feeds#notice", await all.IssueAsync(Asking, Input.Of, Http.RequestAborted));

    private async Task RevokeAsync() => Leave("/calendar/feeds#notice", await all.RevokeAsync(Asking, Revoked ?? Guid.Empty, Http.RequestAborted));
}
