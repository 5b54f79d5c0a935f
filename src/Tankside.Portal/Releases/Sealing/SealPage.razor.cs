using System.Globalization;
using Microsoft.AspNetCore.Components;
using Tankside.Portal.Accounts;

namespace Tankside.Portal.Releases.Sealing;

public sealed partial class SealPage(SeasonSeals seals, SealSeason sealing) : SheetPage<SealForm>
{
    private SealDesk? desk;

    [SupplyParameterFromQuery]
    public string? Season { get; set; }

    private CurrentUser Asking => CurrentUser.From(Http.User)!;

    private string Address => $"/season/account?season={Uri.EscapeDataString(desk!.Now.Season)}";

    protected override async Task LoadAsync()
    {
        Season = string.IsNullOrEmpty(Season) ? null : Season;
        desk = await seals.LoadAsync(Asking.ProgrammeId, Season, Http.RequestAborted);
        Input.Id = Input.Id == Guid.Empty ? Guid.NewGuid() : Input.Id;
    }

    private static string Answer(SealDesk desk) => desk switch
    {
        { Sealed: not null } => $"The account of season {desk.Now.Season} is sealed.",
        { Against.Count: > 0 } => $"The account of season {desk.Now.Season} is open and cannot be sealed yet.",
        _ => $"The account of season {desk.Now.Season} is open. Every fish is accounted for or shown as missing: it can be sealed.",
    };

    private string Moment(DateTime utc) => desk!.Clock.Local(utc).ToString("d MMM yyyy, HH:mm", CultureInfo.InvariantCulture);

    private async Task SealAsync() => LeaveWith(await sealing.CloseAsync(Asking, desk!.Now.Season, Input, Refuse, Http.RequestAborted));

    private async Task ReopenAsync() => LeaveWith(await sealing.OpenAsync(Asking, desk!.Now.Season, Input, Refuse, Http.RequestAborted));

    private void LeaveWith(Notice? notice)
    {
        if (notice is not null)
        {
            Leave(Address + "#notice", notice);
        }
    }
}
