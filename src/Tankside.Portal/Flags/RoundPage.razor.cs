using System.Globalization;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Authorization;
using Microsoft.EntityFrameworkCore;
using Microsoft.JSInterop;
using MudBlazor;
using Tankside.Portal.Accounts;
using Tankside.Portal.Flags.Leaving;
using Tankside.Portal.People;
using Tankside.Storage;

namespace Tankside.Portal.Flags;

/// <summary>The morning round as a page: it follows the feed, and every act goes through <see cref="ActOnFlag"/>.</summary>
public sealed partial class RoundPage
{
    /// <summary>A weekend is long: the round's own changes need not weigh it again each time.</summary>
    private static readonly TimeSpan LeavingEvery = TimeSpan.FromMinutes(2);

    /// <summary>More calls than anybody makes in a morning; the rest are shown when asked for.</summary>
    private const int AtOnce = 200;

    private int rowsShown = AtOnce;

    private readonly CancellationTokenSource gone = new();
    private RoundNow? round;
    private CurrentUser? user;
    private string? openKey;
    private CallDetail? open;
    private readonly List<Clash> clashes = [];
    private IReadOnlyList<LeftTank> leaving = [];
    private DateTime leavingAt;
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
    private Drafts Drafts { get; set; } = null!;

    [Inject]
    private NavigationManager Navigation { get; set; } = null!;

    [Inject]
    private IJSRuntime Script { get; set; } = null!;

    [CascadingParameter]
    private Task<AuthenticationState> Authentication { get; set; } = null!;

    /// <summary>The tank whose call is open, so that a reload or a link finds it again.</summary>
    [SupplyParameterFromQuery(Name = "tank")]
    private string? TankCode { get; set; }

    /// <summary>The shared cause that is open, e.g. "lot:A".</summary>
    [SupplyParameterFromQuery(Name = "cause")]
    private string? CauseKey { get; set; }

    private RoundRow? OpenRow => round?.Of(openKey);

    private RoundCall? OpenCall => OpenRow as RoundCall;

    private string Answer => round!.Calls.Count switch
    {
        0 => $"No tank needs you now{Waiting}; {Well}.",
        1 => $"1 tank needs you{Silent}{Waiting}; {Well}.",
        var n => $"{n} tanks need you{Silent}{Waiting}; {Well}.",
    };

    private string Well => round!.Well == 1 ? "1 is well" : $"{round.Well} are well";

    private string Silent => round!.Calls.Count(c => c.Troubles.Any(t => t.Flag.Kind == Hatchery.Flags.FlagKind.Silent)) is var n and > 0 ? $", {n} of them silent" : "";

    private string Waiting => round!.Resting.OfType<RoundCall>().Count() switch
    {
        0 => "",
        1 => "; 1 waits",
        var n => $"; {n} wait",
    };

    private string Lead => round!.Rows is [var first, ..]
        ? $"First {first.Who}: a call now saves about {Math.Max(1, Math.Round(first.ExpectedLoss)).ToString("0", CultureInfo.InvariantCulture)} of {first.Fish} fish."
        : "The round fills by itself when a reading or a silence asks for you.";

    protected override async Task OnInitializedAsync()
    {
        user = CurrentUser.From((await Authentication).User);
        Feed.Changed += OnChanged;
        await LoadAsync();
        if ((TankCode ?? CauseKey) is { } key)
        {
            await ShowAsync(key);
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
                if (openKey is { } key)
                {
                    await ShowAsync(key);
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
        if (round.At - leavingAt >= LeavingEvery)
        {
            leaving = await scope.ServiceProvider.GetRequiredService<Weekend>().AskedAsync(user!, gone.Token);
            leavingAt = round.At;
        }
    }

    private async Task OpenAsync(string key)
    {
        await ShowAsync(key);
        await KeepAddressAsync();
        await FocusAsync();
    }

    private async Task ShowAsync(string key)
    {
        if (round!.Of(key) is not { } row)
        {
            (openKey, open) = (null, null); // It is settled: the row has left the round.
            return;
        }

        openKey = key;
        if (round.Rows.Skip(rowsShown).Contains(row))
        {
            rowsShown = round.Rows.TakeWhile(r => r != row).Count() + 1; // By a link or the keyboard: the row that is open stands in the queue.
        }

        if (row is RoundCall call)
        {
            await using var db = await Databases.CreateDbContextAsync(gone.Token);
            open = await CallDetail.LoadAsync(db, call.Place.Tank.Id, round.At, round.Unit, gone.Token);
        }
        else
        {
            open = null;
        }
    }

    private void ShowMore() => rowsShown += AtOnce;

    private async Task CloseDetailAsync()
    {
        var left = openKey;
        (openKey, open) = (null, null);
        await KeepAddressAsync();
        await FocusAsync(left);
    }

    /// <summary>
    /// The address says what is open, so that a reload or a link finds it again. It is only written: going there would read the page
    /// anew and take the keyboard away from the row.
    /// </summary>
    private ValueTask KeepAddressAsync() => Script.InvokeVoidAsync("tanksideAddress", Navigation.GetUriWithQueryParameters(new Dictionary<string, object?>
    {
        ["tank"] = OpenCall?.Key,
        ["cause"] = OpenRow is RoundShared shared ? shared.Key : null,
    }));

    private string Clock(DateTime? utc) => utc is { } at ? round!.Clock.Local(at).ToString("HH:mm", CultureInfo.InvariantCulture) : "the start";

    /// <summary>As people say it: at an hour of today, or with its day.</summary>
    private string Moment(DateTime utc) => round!.Clock.Day(utc) == round.Clock.Day(round.At)
        ? $"at {Clock(utc)}"
        : round.Clock.Local(utc).ToString("ddd d MMM 'at' HH:mm", CultureInfo.InvariantCulture);

    /// <summary>The session is over, or the page is gone.</summary>
    private void Stop()
    {
        Feed.Changed -= OnChanged;
        gone.Cancel();
    }

    public void Dispose()
    {
        Stop();
        gone.Dispose();
        keys.Dispose();
    }
}
