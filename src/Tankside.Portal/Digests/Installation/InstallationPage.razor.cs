using System.Globalization;
using Microsoft.AspNetCore.Components;
using Microsoft.Extensions.Diagnostics.HealthChecks;
using Tankside.Portal.Accounts;
using Tankside.Storage;

namespace Tankside.Portal.Digests.Installation;

/// <summary>
/// How the portal itself is, for the lead, who often is who runs it: what the checks say and what to do. It tells nothing of any programme.
/// </summary>
public sealed partial class InstallationPage(HealthCheckService checks, InstallationFacts about) : ComponentBase
{
    private HealthReport report = null!;
    private FactsNow facts = null!;

    [CascadingParameter]
    private HttpContext Http { get; set; } = null!;

    private string Answer => CheckWords.Troubles(report) switch
    {
        [] => "The portal is well.",
        [var one] => $"One thing about the portal needs somebody: {one}.",
        var several => $"{several.Count} things about the portal need somebody: {string.Join(", ", several)}.",
    };

    /// <summary>Looks at everything before the first rendering.</summary>
    public override async Task SetParametersAsync(ParameterView parameters)
    {
        parameters.SetParameterProperties(this);
        if (facts is null)
        {
            report = await checks.CheckHealthAsync(Http.RequestAborted);
            facts = await about.NowAsync(Http.RequestAborted);
        }

        await base.SetParametersAsync(ParameterView.Empty);
    }

    private string Database => facts.Kind switch
    {
        DatabaseKind.Sqlite => "SQLite, one file",
        DatabaseKind.PostgreSQL => "PostgreSQL",
    };

    private static string Word(HealthReportEntry found) => found.Status switch
    {
        HealthStatus.Healthy when !CheckWords.IsLookedAt(found) => "not looked at",
        HealthStatus.Healthy => "well",
        HealthStatus.Degraded => "look",
        HealthStatus.Unhealthy => "stopped",
    };

    private static string? Urgency(HealthStatus status) => status switch
    {
        HealthStatus.Healthy => null,
        HealthStatus.Degraded => "today",
        HealthStatus.Unhealthy => "act-now",
    };

    private static string Capital(string words) => words.Length == 0 ? "" : char.ToUpperInvariant(words[0]) + words[1..];

    private static string Megabytes(long bytes) => string.Create(CultureInfo.InvariantCulture, $"{bytes / 1048576.0:#,0} MB");

    private static string Number(int number) => number.ToString("#,0", CultureInfo.InvariantCulture);

    private static string Span(TimeSpan span) =>
        span.TotalDays >= 2 ? $"{Number(span.Days)} days" : span.TotalHours >= 2 ? $"{Number((int)span.TotalHours)} hours" : $"{Number((int)span.TotalMinutes)} min";
}
