using System.Globalization;
using Microsoft.AspNetCore.Components;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Accounts;
using Tankside.Portal.Readings;

namespace Tankside.Portal.Releases.OnTheDay;

/// <summary>The sheet of a release day: what to look at, who counted what, and the signature.</summary>
public sealed partial class DayPage(DaySheets sheets, WorkDay work) : SheetPage<DayForm>
{
    private DaySheet? sheet;
    private Guid countId = Guid.NewGuid();
    private Guid releaseId = Guid.NewGuid();

    [Parameter]
    public Guid BookingId { get; set; }

    private CurrentUser Asking => CurrentUser.From(Http.User)!;

    private string Self => $"/releases/bookings/{BookingId}/day";

    /// <summary>Tanks whose count stands and whose fish are still here.</summary>
    private IReadOnlyList<DayTank> Ready => [.. sheet!.Tanks.Where(t => t is { Tally: TallyState.Stands, Released: null })];

    private string Headline
    {
        get
        {
            var released = sheet!.Tanks.Where(t => t.Released is not null).ToList();
            return released.Count == sheet.Tanks.Count && released.Count > 0 ? Say.Of("{0} fish are let go, counted and signed for.", Figures.Of(released.Sum(t => t.Released!.Fish)))
                : Ready.Count > 0 ? Say.Of("The count of {0} stands: let go and sign.", string.Join(", ", Ready.Select(t => t.Code)))
                : sheet.Tanks.Any(t => t.Tally is TallyState.Differs) ? Say["Two counts differ."]
                : Say["Look, temper, count, let go, sign."];
        }
    }

    private string Position => sheet!.Site is { Latitude: { } latitude, Longitude: { } longitude }
        ? Say.Of(", at {0:0.####}, {1:0.####}", latitude, longitude)
        : "";

    private string PermitLine => sheet!.Permit is { } use
        ? Say.Of(
            "{0}: {1} into {2}, {3} to {4}, {5} of {6} left", use.Permit.Number, SpokenFish.Of(use.Permit.Species, Say), use.Permit.Water,
            SeasonAtHand.Day(use.Permit.From, Say), SeasonAtHand.Day(use.Permit.To, Say), Figures.Of(use.Left), Figures.Of(use.Permit.Fish))
            + (use.Permit.Document is { } paper ? ". " + Say.Of("The paper: {0}", paper) : "")
        : Say["not chosen"];

    private string Helpers => string.Join("; ", new[]
    {
        string.Join(", ", sheet!.Seen.Helpers.Select(h => sheet.Hand.People.GetValueOrDefault(h) ?? Say["somebody who left"])),
        sheet.Seen.Booking.OtherHelpers > 0 ? Say.Count(sheet.Seen.Booking.OtherHelpers, "{0} other adult", "{0} other adults") : "",
    }.Where(t => t.Length > 0)) is { Length: > 0 } several ? several : Say["nobody is named yet"];

    protected override async Task LoadAsync()
    {
        sheet = await sheets.FindAsync(Asking, BookingId, Http.RequestAborted);
        if (sheet is null)
        {
            Navigation.NotFound();
            return;
        }

        // A form that comes back keeps its id, so that sending it once more is no second count or release.
        (countId, releaseId) = (IsOf("count") && Input.Id != Guid.Empty ? Input.Id : countId, IsOf("letgo") && Input.Id != Guid.Empty ? Input.Id : releaseId);
        if (!IsOf("letgo"))
        {
            var local = sheet.Hand.Season.Clock.Local(sheet.Hand.Season.Now);
            (Input.Day, Input.Time, Input.Unit) = (Iso(DateOnly.FromDateTime(local)), local.ToString("HH:mm", CultureInfo.InvariantCulture), sheet.Hand.Season.Programme.ScreenUnit.ToString());
        }
    }

    private static string Iso(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    private async Task TickAsync() => Done(await work.TickAsync(Asking, BookingId, Input, Refuse, Http.RequestAborted));

    private async Task CountAsync() => Done(await work.CountAsync(Asking, BookingId, Input, Refuse, Http.RequestAborted));

    private async Task StandAsync() => Done(await work.StandAsync(Asking, BookingId, Input, Refuse, Http.RequestAborted));

    private async Task LetGoAsync() => Done(await work.LetGoAsync(Asking, BookingId, Input, Refuse, Http.RequestAborted));

    private void Done(Notice? notice)
    {
        if (notice is not null)
        {
            Leave($"{Self}#notice", notice);
        }
    }
}
