using System.Globalization;
using Microsoft.AspNetCore.Components;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;

namespace Tankside.Portal.Releases.Permits;

public sealed partial class ReleasesPage(SeasonReleases releases, RecordRelease record, WithdrawRelease withdraw, MarkReported mark) : SheetPage<ReleaseForm>
{
    private ReleasesAtHand? hand;

    /// <summary>The release that is to be taken back.</summary>
    [SupplyParameterFromForm(FormName = "withdraw")]
    public Guid? Withdrawn { get; set; }

    /// <summary>The release whose report was sent.</summary>
    [SupplyParameterFromForm(FormName = "report")]
    public Guid? Reported { get; set; }

    /// <summary>The release whose report was not sent after all.</summary>
    [SupplyParameterFromForm(FormName = "unreport")]
    public Guid? Unreported { get; set; }

    /// <summary>Chosen on the page that led here.</summary>
    [SupplyParameterFromQuery]
    public string? Tank { get; set; }

    private CurrentUser Asking => CurrentUser.From(Http.User)!;

    private bool MayArrange => Asking.Is(Role.Coordinator, Role.ProgrammeLead);

    private string Answer
    {
        get
        {
            var counted = hand!.Releases.Where(r => r.Release.WithdrawnAt is null).ToList();
            var fish = Figures.Of(counted.Sum(r => r.Release.Fish));
            return (counted.Count, Asking.Is(Role.Teacher)) switch
            {
                (0, true) => Say["No fish of your school are released yet."],
                (0, false) => Say["No fish are released yet."],
                var (times, isSchool) => isSchool
                    ? Say.Count(times, "{1} fish of your school are released, in {0} release.", "{1} fish of your school are released, in {0} releases.", fish)
                    : Say.Count(times, "{1} fish are released, in {0} release.", "{1} fish are released, in {0} releases.", fish),
            };
        }
    }

    protected override async Task OnInitializedAsync()
    {
        hand = await releases.LoadAsync(Asking, Http.RequestAborted);
        if (!IsPost || (Withdrawn ?? Reported ?? Unreported) is not null)
        {
            Begin(hand);
        }
    }

    private void Begin(ReleasesAtHand hand)
    {
        var local = hand.Season.Clock.Local(hand.Season.Now);
        Input.Id = Guid.NewGuid();
        Input.Tank = hand.Tanks.Any(t => t.Code == Tank) ? Tank : hand.Tanks.Count == 1 ? hand.Tanks[0].Code : null;
        Input.Day = local.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
        Input.Time = local.ToString("HH:mm", CultureInfo.InvariantCulture);
        Input.Unit = hand.Season.Programme.ScreenUnit.ToString();
    }

    private async Task RecordAsync()
    {
        if (await record.HandleAsync(Asking, Input, Refuse, Http.RequestAborted) is { } notice)
        {
            Leave("/releases#notice", notice);
        }
    }

    private async Task WithdrawAsync() => Leave("/releases#notice", await withdraw.HandleAsync(Asking, Withdrawn ?? Guid.Empty, Http.RequestAborted));

    private async Task ReportAsync() => Leave("/releases#notice", await mark.HandleAsync(Asking, Reported ?? Guid.Empty, sent: true, Http.RequestAborted));

    private async Task UnreportAsync() => Leave("/releases#notice", await mark.HandleAsync(Asking, Unreported ?? Guid.Empty, sent: false, Http.RequestAborted));
}
