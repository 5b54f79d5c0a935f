using System.Globalization;
using Microsoft.AspNetCore.Components;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Accounts;
using Tankside.Science.Eggs;

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
            return released.Count == sheet.Tanks.Count && released.Count > 0 ? $"{Figures.Of(released.Sum(t => t.Released!.Fish))} fish are let go, counted and signed for."
                : Ready.Count > 0 ? $"The count of {string.Join(", ", Ready.Select(t => t.Code))} stands: let go and sign."
                : sheet.Tanks.Any(t => t.Tally is TallyState.Differs) ? "Two counts differ."
                : "Look, temper, count, let go, sign.";
        }
    }

    private string Position => sheet!.Site is { Latitude: { } latitude, Longitude: { } longitude }
        ? string.Create(CultureInfo.InvariantCulture, $", at {latitude:0.####}, {longitude:0.####}")
        : "";

    private string PermitLine => sheet!.Permit is { } use
        ? $"{use.Permit.Number}: {SpeciesCodes.CommonName(use.Permit.Species)} into {use.Permit.Water}, {SeasonAtHand.Day(use.Permit.From)} to {SeasonAtHand.Day(use.Permit.To)}, {Figures.Of(use.Left)} of {Figures.Of(use.Permit.Fish)} left{(use.Permit.Document is { } paper ? $". The paper: {paper}" : "")}"
        : "not chosen";

    private string Helpers => string.Join("; ", new[]
    {
        string.Join(", ", sheet!.Seen.Helpers.Select(h => sheet.Hand.People.GetValueOrDefault(h) ?? "somebody who left")),
        sheet.Seen.Booking.OtherHelpers > 0 ? Figures.Of(sheet.Seen.Booking.OtherHelpers, "other adult", "other adults") : "",
    }.Where(t => t.Length > 0)) is { Length: > 0 } several ? several : "nobody is named yet";

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
