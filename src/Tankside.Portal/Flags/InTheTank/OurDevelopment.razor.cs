using System.Globalization;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Shell.Charts;
using Tankside.Portal.Shell.Look;
using Tankside.Science.Eggs;

namespace Tankside.Portal.Flags.InTheTank;

/// <summary>Hatch and swim-up on the school's own calendar, with what their intervals are made of.</summary>
public partial class OurDevelopment
{
    private CultureInfo Reader => Say.IsSpanish ? Say.Culture : CultureInfo.InvariantCulture;

    private string Label => Say.Of("Eggs came {0}.", Now.Time.Day(Lot.DeliveredOn)) + " "
        + string.Join(" ", stages.Select(s => $"{s.Name}: {Now.Time.Stretch(s.Low, s.High)}."));

    protected override void OnParametersSet()
    {
        stages = [];
        forecasts = [];
        Add(Say["hatch"], Picture.Alevin, Development.Hatch, Development.HalfHatchedOn);
        Add(Say["swim-up"], Picture.Fry, Development.SwimUp, StageWords.SeenSwimmingOn(Now.Record.Days));
        var last = stages.Select(s => s.High).Append(Now.Time.Today).Max();
        var runs = Now.Place.Calendar.ClosedRuns(Lot.DeliveredOn.AddDays(-14), last.AddDays(14));
        closed = [.. runs.Select(r => new ClosedDays(r.First, r.Last))];
    }

    /// <summary>What was seen is one day; what is reckoned is an interval.</summary>
    private void Add(string name, Picture picture, StageForecast? forecast, DateOnly? seen)
    {
        if (seen is { } day)
        {
            stages.Add(new StageMark(name, day, day, day, picture));
        }
        else if (forecast is { } f)
        {
            stages.Add(new StageMark(name, f.Low80, f.Mid, f.High80, picture));
        }

        if (forecast is not null)
        {
            forecasts.Add((name, forecast));
        }
    }

    /// <summary>A break that a stage may fall into: somebody has to be at the tank then.</summary>
    private IEnumerable<string> Overlaps()
    {
        foreach (var stage in stages.Where(s => s.High >= Now.Time.Today))
        {
            foreach (var run in closed.Where(c => c.To.DayNumber - c.From.DayNumber + 1 >= SchoolCalendar.BreakDays && c.From <= stage.High && c.To >= stage.Low))
            {
                yield return Say.Of("{0} may fall into the days that school is closed, {1}. Name an adult who looks at the tank then, or ask your coordinator about another set point or a holding tank.", CountWords.Capital(stage.Name), Now.Time.Stretch(run.From, run.To));
            }
        }
    }

    private string Cause(ForecastPartName part) => part switch
    {
        ForecastPartName.Model => Say["the model itself"],
        ForecastPartName.Start => Say["the start: the hatchery's mean temperature"],
        ForecastPartName.Spawning => Say["several spawning days"],
        ForecastPartName.Thermometer => Say["the thermometer"],
        ForecastPartName.Gaps => Say["days without a reading"],
        ForecastPartName.Future => Say["the temperature still to come"],
    };

    private static string Days(double days) => days.ToString("0.0", CultureInfo.InvariantCulture);

    private string InRange(StageForecast forecast)
    {
        var range = Now.Scale.Span(forecast.Model.FromC, forecast.Model.ToC);
        return forecast.InRange
            ? Say.Of("The water lies inside the range of its source, {0}.", range)
            : Say.Of("Some of the water lies outside the range of its source, {0}: the interval is made wider for it.", range);
    }
}
