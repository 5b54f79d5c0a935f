using System.Globalization;
using Microsoft.AspNetCore.Components;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
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
    public Guid User { get; set; }

    [Parameter]
    public EventCallback<FlagDeed> Act { get; set; }

    [Parameter]
    public EventCallback Back { get; set; }

    [Parameter]
    public EventCallback Note { get; set; }

    [Parameter]
    public EventCallback Close { get; set; }

    private FirstAidCard Aid => FirstAid.For(Call.Leading.Flag.AsFinding());

    private WarmingEvidence? Warming => Call.Troubles.Select(t => t.Flag.Evidence).OfType<WarmingEvidence>().FirstOrDefault();

    /// <summary>From the last reading to its limit, slow and fast end of the 80% interval, straight: the eye needs no more.</summary>
    private IReadOnlyList<FanPoint> Fan => Warming is not { PassesAt: { } at } w ? [] :
    [
        new FanPoint(Local(w.At), w.WaterC, w.WaterC, w.WaterC),
        new FanPoint(Local(at.Low), Between(w, at.High, at.Low), Between(w, at.Mid, at.Low), w.Limit),
        new FanPoint(Local(at.Mid), Between(w, at.High, at.Mid), w.Limit, w.Limit + (w.Limit - Between(w, at.Mid, at.Low))),
        new FanPoint(Local(at.High), w.Limit, w.Limit + (w.Limit - Between(w, at.High, at.Mid)), w.Limit + (2 * (w.Limit - Between(w, at.Mid, at.Low)))),
    ];

    private string TimeLeft => Call.Call.HoursLeft switch
    {
        null => "time is not the question",
        { High: <= 0 } => "the limit should have been passed",
        { Low: <= 0 } band => $"may be over already; at most {Hours(band.High)}",
        { } band => $"between {Hours(band.Low)} and {Hours(band.High)}; act at the near end",
    };

    private static double Between(WarmingEvidence w, DateTime passes, DateTime at) =>
        w.WaterC + ((w.Limit - w.WaterC) * (at - w.At).TotalHours / Math.Max(0.01, (passes - w.At).TotalHours));

    private static string Hours(double hours) => hours < 1.5
        ? $"{(hours * 60).ToString("0", CultureInfo.InvariantCulture)} minutes"
        : $"{hours.ToString("0.#", CultureInfo.InvariantCulture)} hours";

    private DateTime Local(DateTime utc) => Call.Place.Calendar.Clock.Local(utc);

    private string Time(DateTime utc) => Local(utc).ToString("HH:mm", CultureInfo.InvariantCulture);

    private string When(DateTime utc) => Local(utc).Date == Local(Now).Date ? Time(utc) : Local(utc).ToString("ddd d MMM HH:mm", CultureInfo.InvariantCulture);
}
