using System.Collections.Concurrent;
using System.Text;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using Serilog;
using Serilog.Core;
using Serilog.Events;
using Serilog.Extensions.Logging;
using Tankside.Hatchery.People;
using Tankside.Portal.Shell;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Shell;

/// <summary>What the log says of who came in, and what it never says.</summary>
public class LogTests
{
    [Theory]
    [InlineData("/t/bcdf2345ghjk", "/t/…")]
    [InlineData("/T/bcdf2345ghjk/help", "/t/…")]
    [InlineData("/run/bcdf2345ghjk/ticks", "/run/…")]
    [InlineData("/sweep/secret", "/sweep/…")]
    [InlineData("/mail/secret", "/mail/…")]
    [InlineData("/calendar/feeds/secret.ics", "/calendar/feeds/…")]
    [InlineData("/Invitation/secret", "/invitation/…")]
    [InlineData("/set-up/secret", "/set-up/…")]
    [InlineData("/reset-password/0198", "/reset-password/…")]
    [InlineData("/calendar/feeds", "/calendar/feeds")]
    [InlineData("/tanks/A001", "/tanks/A001")]
    [InlineData("/runs/0198", "/runs/0198")]
    [InlineData("/", "/")]
    public void A_path_is_logged_without_what_opens_a_door(string path, string logged) => Assert.Equal(logged, Logging.Where(path));

    [Fact]
    public void The_path_that_the_framework_adds_to_every_line_is_cut_too()
    {
        var kept = new KeptLines();
        using var root = new LoggerConfiguration().Enrich.FromLogContext().Enrich.With<PathsWithoutSecrets>().WriteTo.Sink(kept).CreateLogger();
        using var loggers = new SerilogLoggerFactory(root);
        var log = loggers.CreateLogger("any");

        using (log.BeginScope(new Dictionary<string, object> { ["RequestPath"] = "/t/bcdf2345ghjk" }))
        {
            log.LogWarning("Something");
        }

        Assert.Equal("/t/…", ((ScalarValue)Assert.Single(kept.Events).Properties["RequestPath"]).Value);
    }

    [Fact]
    public async Task Every_try_to_come_in_is_logged_by_the_persons_id_and_nothing_that_was_typed()
    {
        var kept = new KeptLines();
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite, new PortalHostSettings
        {
            Keys = new Dictionary<string, string> { ["Serilog:MinimumLevel:Default"] = "Information" },
            Services = services => services.AddSingleton<ILogEventSink>(kept),
        });
        await using var _ = host;
        var (teacher, email) = (world.One.People[Role.Teacher].Id, world.One.EmailOf(Role.Teacher));

        foreach (var (who, password) in new[] { (email, "not the password"), ("stranger@alder.example", "not the password"), (email, TestWorld.Password) })
        {
            await host.Anonymous().PostFormAsync("/sign-in", new Dictionary<string, string> { ["Input.Email"] = who, ["Input.Password"] = password });
        }

        var lines = kept.Events.Select(e => e.RenderMessage(System.Globalization.CultureInfo.InvariantCulture)).ToList();
        Assert.Equal(
            [$"Sign-in by \"password\" of \"{teacher}\": Refused", "Sign-in by \"password\" of \"nobody known\": Refused", $"Sign-in by \"password\" of \"{teacher}\": In"],
            lines.Where(l => l.StartsWith("Sign-in", StringComparison.Ordinal)));
        Assert.DoesNotContain(kept.Events.SelectMany(e => e.Properties.Values.Select(v => v.ToString())).Concat(lines),
            text => text.Contains(email, StringComparison.OrdinalIgnoreCase) || text.Contains("stranger", StringComparison.Ordinal)
                || text.Contains("not the password", StringComparison.Ordinal) || text.Contains(TestWorld.Password, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("/t/bcdf2345ghjk", "application/x-www-form-urlencoded", "note=a%00b")]
    [InlineData("/sign-in", "application/x-www-form-urlencoded", "Input.Email=a%00b")]
    [InlineData("/t/bcdf2345ghjk", "multipart/form-data; boundary=x", "--y\r\nno form at all")]
    public async Task What_a_stranger_sends_that_cannot_be_read_is_no_fault_of_ours_in_the_log(string address, string kind, string body)
    {
        var kept = new KeptLines();
        await using var host = await PortalHost.CreateAsync(DatabaseKind.Sqlite, new PortalHostSettings
        {
            Keys = new Dictionary<string, string> { ["Serilog:MinimumLevel:Default"] = "Information" },
            Services = services => services.AddSingleton<ILogEventSink>(kept),
        });
        using var content = new ByteArrayContent(Encoding.ASCII.GetBytes(body));
        content.Headers.TryAddWithoutValidation("Content-Type", kind);

        var answer = await host.Anonymous().PostAsync(address, content);

        Assert.Equal(System.Net.HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Contains(kept.Events, e => e.RenderMessage(System.Globalization.CultureInfo.InvariantCulture).Contains("answered 400", StringComparison.Ordinal));
        Assert.DoesNotContain(kept.Events, e => e.Level >= LogEventLevel.Error || e.Exception is not null);
    }

    private sealed class KeptLines : ILogEventSink
    {
        private readonly ConcurrentQueue<LogEvent> events = new();

        public IReadOnlyList<LogEvent> Events => [.. events];

        public void Emit(LogEvent logEvent) => events.Enqueue(logEvent);
    }
}
