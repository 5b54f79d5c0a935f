using Serilog;
using Serilog.Events;
using Serilog.Formatting.Compact;

namespace Tankside.Portal.Shell;

/// <summary>
/// Structured logs without personal data: people by id, tanks by code, never a name, an address, a note or a room code.
/// </summary>
public static class Logging
{
    /// <summary>What stands behind these is a secret.</summary>
    private static readonly string[] Doors = ["/t/", "/run/", "/sweep/", "/mail/", "/calendar/feeds/", "/invitation/", "/set-up/", "/reset-password/"];

    /// <param name="onStandardError">True for commands, whose answer alone belongs on standard output.</param>
    public static void AddLogging(this WebApplicationBuilder builder, bool onStandardError) =>
        builder.Services.AddSerilog(
            (services, log) =>
            {
                log.MinimumLevel.Information()
                    .MinimumLevel.Override("Microsoft", LogEventLevel.Warning)
                    .MinimumLevel.Override("Microsoft.Hosting.Lifetime", LogEventLevel.Information)
                    .MinimumLevel.Override("System", LogEventLevel.Warning)
                    // The first start asks for tables that are not there yet; that is not an error.
                    .MinimumLevel.Override("Microsoft.EntityFrameworkCore.Database.Command", LogEventLevel.Fatal)
                    .Enrich.FromLogContext()
                    .Enrich.With<PathsWithoutSecrets>()
                    .ReadFrom.Configuration(builder.Configuration)
                    .ReadFrom.Services(services);
                var everything = onStandardError ? LogEventLevel.Verbose : (LogEventLevel?)null;
                if (builder.Environment.IsDevelopment())
                {
                    log.WriteTo.Console(
                        outputTemplate: "{Timestamp:HH:mm:ss} {Level:u3} {Message:lj}{NewLine}{Exception}",
                        formatProvider: System.Globalization.CultureInfo.InvariantCulture,
                        standardErrorFromLevel: everything);
                }
                else
                {
                    log.WriteTo.Console(new CompactJsonFormatter(), standardErrorFromLevel: everything);
                }
            },
            preserveStaticLogger: true);

    public static IApplicationBuilder UseRequestLog(this WebApplication app) => app.UseSerilogRequestLogging(options =>
    {
        // Otherwise it says it to the static logger, which nobody hears.
        options.Logger = app.Services.GetRequiredService<Serilog.ILogger>();
        options.MessageTemplate = "{RequestMethod} {Where} answered {StatusCode} in {Elapsed:0.0} ms";
        options.IncludeQueryInRequestPath = false;
        options.GetLevel = (context, _, error) =>
            error is not null || context.Response.StatusCode >= 500 ? LogEventLevel.Error
            : context.Request.Path.StartsWithSegments("/health") || context.Request.Path.StartsWithSegments("/_framework") ? LogEventLevel.Debug
            : LogEventLevel.Information;
        options.EnrichDiagnosticContext = (log, context) => log.Set("Where", Where(context.Request.Path.Value ?? "/"));
        options.GetMessageTemplateProperties = (context, _, elapsed, status) =>
        [
            new LogEventProperty("RequestMethod", new ScalarValue(context.Request.Method)),
            new LogEventProperty("Where", new ScalarValue(Where(context.Request.Path.Value ?? "/"))),
            new LogEventProperty("StatusCode", new ScalarValue(status)),
            new LogEventProperty("Elapsed", new ScalarValue(elapsed)),
        ];
    });

    /// <summary>The path without what opens doors: room codes and the secrets of links stand in it.</summary>
    public static string Where(string path) =>
        // An address is found in capitals too.
        Doors.FirstOrDefault(door => path.StartsWith(door, StringComparison.OrdinalIgnoreCase)) is { } door && path.Length > door.Length ? $"{door}…" : path;
}
