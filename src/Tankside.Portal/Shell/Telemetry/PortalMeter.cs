using System.Diagnostics.Metrics;

namespace Tankside.Portal.Shell.Telemetry;

/// <summary>
/// What the portal counts of its own work. No measurement tells of a person, a school or a tank: there is no label that could.
/// </summary>
public sealed class PortalMeter : IDisposable
{
    public const string Name = "Tankside";

    private readonly Meter meter;
    private readonly Counter<long> readings, letters;
    private readonly Histogram<double> sweeps;

    public PortalMeter(IMeterFactory meters)
    {
        meter = meters.Create(Name);
        readings = meter.CreateCounter<long>("tankside.readings", "{reading}", "Readings that were answered, by their way in and what became of them.");
        letters = meter.CreateCounter<long>("tankside.letters", "{letter}", "Letters that were handed to the mail server, by what became of them.");
        sweeps = meter.CreateHistogram(
            "tankside.sweep.duration", "s", "How long it took to judge every open tank.", advice: new InstrumentAdvice<double> { HistogramBucketBoundaries = [0.1, 0.3, 1, 3, 10, 30, 60] });
    }

    /// <param name="by">The way in, e.g. "class" or "logger".</param>
    /// <param name="became">"accepted", "asked", "duplicate" or "rejected".</param>
    public void Read(string by, string became, int count) => readings.Add(count, new("by", by), new("became", became));

    public void Wrote(string became) => letters.Add(1, new KeyValuePair<string, object?>("became", became));

    public void Swept(double seconds) => sweeps.Record(seconds);

    public void Dispose() => meter.Dispose();
}
