using System.Globalization;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Authorization;
using Microsoft.AspNetCore.Components.Web;
using Microsoft.EntityFrameworkCore;
using Microsoft.JSInterop;
using MudBlazor;
using Tankside.Hatchery.Flags;
using Tankside.Portal.Accounts;
using Tankside.Storage;

namespace Tankside.Portal.Flags;

/// <summary>The morning round as a page: it follows the feed, and every act goes through <see cref="ActOnFlag"/>.</summary>
public sealed partial class RoundPage
{
    private readonly CancellationTokenSource gone = new();
    private RoundNow? round;
    private CurrentUser? user;
    private Guid? openTank;
    private CallDetail? open;
    private Clash? notice;
    private bool loading, stale;

    /// <summary>True once the page's own connection stands: before, it is only a picture of the round and hears no key.</summary>
    private bool live;

    [Inject]
    private IServiceScopeFactory Scopes { get; set; } = null!;

    [Inject]
    private IDbContextFactory<HatcheryDb> Databases { get; set; } = null!;

    [Inject]
    private RoundFeed Feed { get; set; } = null!;

    [Inject]
    private JudgeHealth Health { get; set; } = null!;

    [Inject]
    private IDialogService Dialogs { get; set; } = null!;

    [Inject]
    private ISnackbar Messages { get; set; } = null!;

    [Inject]
    private NavigationManager Navigation { get; set; } = null!;

    [Inject]
    private IJSRuntime Script { get; set; } = null!;

    [CascadingParameter]
    private Task<AuthenticationState> Authentication { get; set; } = null!;

    /// <summary>The tank whose call is open, so that a reload or a link finds it again.</summary>
    [SupplyParameterFromQuery(Name = "tank")]
    private string? TankCode { get; set; }

    private RoundCall? OpenCall => round?.Calls.FirstOrDefault(c => c.Place.Tank.Id == openTank);

    private string Answer => round!.Calls.Count switch
    {
        0 => $"No tank needs you now; {round.Well} are well.",
        1 => $"1 tank needs you; {round.Well} are well{Silent}.",
        var n => $"{n} tanks need you; {round.Well} are well{Silent}.",
    };

    private string Silent => round!.Silent == 0 ? "" : $"; {round.Silent} {(round.Silent == 1 ? "is" : "are")} silent";

    private string Lead => round!.Calls is [var first, ..]
        ? $"First {first.Place.School.Name}, {first.Place.Room.Name}: a call now saves about {Math.Max(1, Math.Round(first.Call.ExpectedLoss)).ToString("0", CultureInfo.InvariantCulture)} of {first.Call.Fish} fish."
        : "The round fills by itself when a reading or a silence asks for you.";

    protected override async Task OnInitializedAsync()
    {
        user = CurrentUser.From((await Authentication).User);
        Feed.Changed += OnChanged;
        await LoadAsync();
        if (TankCode is { } code && round!.Calls.FirstOrDefault(c => c.Place.Tank.Code == code) is { } call)
        {
            await ShowAsync(call.Place.Tank.Id);
        }
    }

    protected override void OnAfterRender(bool firstRender)
    {
        if (firstRender)
        {
            live = true;
            StateHasChanged();
        }
    }

    private void OnChanged(Guid programme)
    {
        if (programme == user?.ProgrammeId)
        {
            _ = InvokeAsync(ReloadAsync);
        }
    }

    /// <summary>Reads the round again; changes that come while it is being read are read once more, not once each.</summary>
    private async Task ReloadAsync()
    {
        stale = true;
        if (loading || gone.IsCancellationRequested)
        {
            return;
        }

        loading = true;
        try
        {
            while (stale && !gone.IsCancellationRequested)
            {
                stale = false;
                await LoadAsync();
                if (openTank is { } tank)
                {
                    await ShowAsync(tank);
                }
            }
        }
        finally
        {
            loading = false;
        }

        StateHasChanged();
    }

    private async Task LoadAsync()
    {
        await using var scope = Scopes.CreateAsyncScope();
        round = await scope.ServiceProvider.GetRequiredService<Round>().LoadAsync(user!.ProgrammeId, gone.Token);
    }

    private async Task OpenAsync(Guid tankId)
    {
        await ShowAsync(tankId);
        var code = OpenCall?.Place.Tank.Code;
        Navigation.NavigateTo(Navigation.GetUriWithQueryParameter("tank", code), new NavigationOptions { ReplaceHistoryEntry = false });
    }

    private async Task ShowAsync(Guid tankId)
    {
        if (round!.Calls.All(c => c.Place.Tank.Id != tankId))
        {
            (openTank, open) = (null, null); // The call is settled: the row has left the round.
            return;
        }

        await using var db = await Databases.CreateDbContextAsync(gone.Token);
        openTank = tankId;
        open = await CallDetail.LoadAsync(db, tankId, round.At, round.Unit, gone.Token);
    }

    private void CloseDetail()
    {
        (openTank, open) = (null, null);
        Navigation.NavigateTo(Navigation.GetUriWithQueryParameter("tank", (string?)null));
    }

    private async Task OnKeyAsync(KeyboardEventArgs key)
    {
        if (key.CtrlKey || key.AltKey || key.MetaKey || round!.Calls.Count == 0)
        {
            return;
        }

        var at = round.Calls.ToList().FindIndex(c => c.Place.Tank.Id == openTank);
        switch (key.Key)
        {
            case "ArrowDown" or "j":
                await StepToAsync(Math.Min(at + 1, round.Calls.Count - 1));
                break;
            case "ArrowUp" or "k":
                await StepToAsync(Math.Max(at - 1, 0));
                break;
            case "t" when OpenCall is { } call:
                await ActAsync(call.Leading.Flag.TakenBy is null ? FlagDeed.Taken : FlagDeed.HandedBack);
                break;
            case "n" when OpenCall is not null:
                await NoteAsync();
                break;
            case "c" when OpenCall is not null:
                await CloseCallAsync();
                break;
            case "Escape":
                CloseDetail();
                break;
        }
    }

    private async Task StepToAsync(int index)
    {
        var call = round!.Calls[index];
        await OpenAsync(call.Place.Tank.Id);
        await FocusAsync();
    }

    /// <summary>Puts the keyboard back on the open row, or on the queue, so that the next key goes on from there.</summary>
    private ValueTask FocusAsync() =>
        Script.InvokeVoidAsync("tanksideFocus", OpenCall is { } call ? $"call-{call.Place.Tank.Code}" : "round");

    private string Clock(DateTime? utc) => utc is { } at && round!.Calls is [{ Place.Calendar.Clock: var clock }, ..]
        ? clock.Local(at).ToString("HH:mm", CultureInfo.InvariantCulture)
        : utc?.ToString("HH:mm 'UTC'", CultureInfo.InvariantCulture) ?? "the start";

    public void Dispose()
    {
        Feed.Changed -= OnChanged;
        gone.Cancel();
        gone.Dispose();
    }
}
