using System.Globalization;
using Microsoft.AspNetCore.Components;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Portal.Flags.FirstAidTexts;
using Tankside.Portal.Flags.InTheTank;
using Tankside.Portal.Shell.Charts;

namespace Tankside.Portal.Flags;

/// <summary>The open call: evidence, what to say, what was done.</summary>
public sealed partial class CallPane
{
    [Parameter, EditorRequired]
    public required RoundCall Call { get; set; }

    [Parameter, EditorRequired]
    public required CallDetail Detail { get; set; }

    [Parameter]
    public TemperatureUnit Unit { get; set; }

    [Parameter]
    public DateTime Now { get; set; }

    [Parameter]
    public EventCallback Back { get; set; }

    /// <summary>The acts at its foot.</summary>
    [Parameter]
    public RenderFragment? ChildContent { get; set; }

    private FirstAidCard Aid => FirstAid.For(
        Call.Leading.Flag.AsFinding(), AidTank.Of(Call.Place), "en");

    private AidTopic Topic => AidTopics.Of(Call.Leading.Flag.Kind, Call.Leading.Flag.Evidence);

    private string Whose => Aid.Own switch
    {
        0 => "",
        1 => "The first step is your programme’s own.",
        var own when own == Aid.Say.Count => "The steps are your programme’s own.",
        var own => $"The first {own} steps are your programme’s own.",
    };

    private WarmingEvidence? Warming => Call.Troubles.Select(t => t.Flag.Evidence).OfType<WarmingEvidence>().FirstOrDefault();

    private IReadOnlyList<FanPoint> Fan => Warming is { } w ? WarmingFan.Of(w, Call.Place.Calendar.Clock) : [];

    private TimeWords Days => new(Call.Place.Calendar.Clock, Now);

    /// <summary>Whether the call is about the fish themselves more than about their water.</summary>
    private bool AboutFish => Call.Troubles.Any(t => t.Flag.Kind is FlagKind.DieOff or FlagKind.Fungus or FlagKind.LateHatch or FlagKind.EarlyHatch or FlagKind.FeedingNearBreak or FlagKind.Tally);

    private string LossLabel => $"{Detail.Losses.Sum(d => d.Removed ?? 0)} dead removed on {Detail.Losses.Count(d => d.Removed is not null)} counted days.";

    private string TimeLeft => Call.Call.HoursLeft switch
    {
        null => "time is not the question",
        { High: <= 0 } => "the limit should have been passed",
        { Low: <= 0 } band => $"may be over already; at most {Hours(band.High)}",
        { } band => $"between {Hours(band.Low)} and {Hours(band.High)}; act at the near end",
    };

    private static string Hours(double hours) => hours < 1.5
        ? $"{(hours * 60).ToString("0", CultureInfo.InvariantCulture)} minutes"
        : $"{hours.ToString("0.#", CultureInfo.InvariantCulture)} hours";

    private DateTime Local(DateTime utc) => Call.Place.Calendar.Clock.Local(utc);

    private string Time(DateTime utc) => Local(utc).ToString("HH:mm", CultureInfo.InvariantCulture);

    private string When(DateTime utc) => Local(utc).Date == Local(Now).Date ? Time(utc) : Local(utc).ToString("ddd d MMM HH:mm", CultureInfo.InvariantCulture);
}
