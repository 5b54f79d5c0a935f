using System.Reflection;
using OpenTelemetry;
using OpenTelemetry.Metrics;
using OpenTelemetry.Resources;
using OpenTelemetry.Trace;

namespace Tankside.Portal.Shell.Telemetry;

/// <summary>
/// Measurements and traces for whoever runs the portal, in the open standard's names: fetched as Prometheus text from an address of their own,
/// or sent by OTLP. Neither is there unless it is set.
/// </summary>
public static class TelemetryFeature
{
    /// <summary>Of the framework's hundred instruments those that an operator asks about first.</summary>
    private static readonly string[] Told =
    [
        "kestrel.active_connections", "kestrel.queued_connections", "kestrel.rejected_connections", "dotnet.process.memory.working_set", "dotnet.gc.last_collection.heap.size",
        "dotnet.gc.pause.time", "dotnet.thread_pool.queue.length", "dotnet.exceptions", "db.client.connection.count", "db.client.operation.failed",
        "aspnetcore.components.circuit.active", "aspnetcore.components.circuit.connected", "aspnetcore.rate_limiting.requests",
    ];

    public static void AddTelemetry(this WebApplicationBuilder builder, TanksideOptions options)
    {
        builder.Services.AddSingleton<PortalMeter>();
        KnownHealth.Add(builder.Services);
        var sends = builder.Configuration["OTEL_EXPORTER_OTLP_ENDPOINT"] is { Length: > 0 };
        if (options.MetricsListen is null && !sends)
        {
            return;
        }

        var telemetry = builder.Services.AddOpenTelemetry().ConfigureResource(r => r.AddService(
            "tankside", serviceVersion: typeof(TelemetryFeature).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()?.InformationalVersion));
        telemetry.WithMetrics(metrics =>
        {
            metrics.AddMeter(PortalMeter.Name, "Microsoft.AspNetCore.*", "System.Runtime", "Npgsql").AddView(ViewOf);
            if (options.MetricsListen is { } listen)
            {
                metrics.AddPrometheusHttpListener(o => (o.Host, o.Port) = (listen.Host, listen.Port));
            }
        });
        if (sends)
        {
            telemetry.WithTracing(traces => traces.AddSource("Microsoft.AspNetCore", "Npgsql").AddProcessor(new TracesWithoutSecrets()));
            telemetry.UseOtlpExporter();
        }
    }

    /// <summary>How long requests took is told by how they were answered, not by each of the hundreds of addresses.</summary>
    private static MetricStreamConfiguration? ViewOf(System.Diagnostics.Metrics.Instrument instrument) => instrument switch
    {
        { Meter.Name: PortalMeter.Name } => null,
        { Name: "http.server.request.duration" } => new ExplicitBucketHistogramConfiguration
        {
            TagKeys = ["http.response.status_code"],
            Boundaries = [0.01, 0.03, 0.1, 0.3, 1, 3, 10],
        },
        _ when Told.Contains(instrument.Name) => null,
        _ => MetricStreamConfiguration.Drop,
    };

    /// <summary>A trace tells the pattern of an address, never the address: room codes and the secrets of links stand in it.</summary>
    private sealed class TracesWithoutSecrets : BaseProcessor<System.Diagnostics.Activity>
    {
        private static readonly string[] Addresses = ["url.path", "url.full", "url.query", "http.target", "http.url", "client.address", "user_agent.original"];

        public override void OnEnd(System.Diagnostics.Activity data)
        {
            foreach (var name in Addresses)
            {
                data.SetTag(name, null);
            }
        }
    }
}
