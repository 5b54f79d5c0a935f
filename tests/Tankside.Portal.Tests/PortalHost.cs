using System.Net;
using System.Net.Http.Headers;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.Mvc.Testing;
using Microsoft.AspNetCore.TestHost;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;
using Microsoft.Extensions.Diagnostics.HealthChecks;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Time.Testing;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts.Mail;
using Tankside.Portal.Digests;
using Tankside.Portal.Digests.Keeping;
using Tankside.Portal.Flags;
using Tankside.Portal.Readings.Sheets;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests;

/// <summary>
/// The whole portal in the test process, on a database of its own and with a clock that stands still until the test moves it. Judging
/// happens when the test asks for it, unless the judge is let work by itself.
/// </summary>
public sealed class PortalHost : WebApplicationFactory<Program>
{
    /// <summary>The address that links in mails and on labels begin with.</summary>
    public const string PublicUrl = "https://tankside.example.test/";

    private readonly TestDatabase database;

    /// <summary>True when it answers on a port: the factory's own client then follows redirections whatever it is told.</summary>
    private bool listens;

    private readonly PortalHostSettings settings;

    private readonly bool ownsDatabase;

    private PortalHost(TestDatabase database, PortalHostSettings settings, bool ownsDatabase = true)
    {
        this.database = database;
        this.ownsDatabase = ownsDatabase;
        this.settings = settings;
        Time = new FakeTimeProvider(new DateTimeOffset(settings.Now));
    }

    public FakeTimeProvider Time { get; }

    public DateTime Now => Time.GetUtcNow().UtcDateTime;

    public DatabaseChoice Database => database.Choice;

    /// <summary>A host on an empty database of the newest schema.</summary>
    public static async Task<PortalHost> CreateAsync(DatabaseKind kind, PortalHostSettings? settings = null) =>
        new(await TestDatabase.CreateAsync(kind), settings ?? new PortalHostSettings());

    /// <summary>A host with the small made-up world in its database.</summary>
    public static async Task<(PortalHost Host, TestWorld World)> CreateWithWorldAsync(DatabaseKind kind, PortalHostSettings? settings = null)
    {
        var host = await CreateAsync(kind, settings);
        return (host, await TestWorld.SeedAsync(host.database));
    }

    /// <summary>Another portal on the same database, with a clock of its own; it has to be gone before this one.</summary>
    public PortalHost Neighbour(PortalHostSettings? other = null) => new(database, other ?? settings with { Now = Now }, ownsDatabase: false);

    /// <summary>Listens on a free port for a real browser and gives the address.</summary>
    public Uri Listen()
    {
        // Not UseKestrel(0): that writes the address after the program has begun to start, and loses the race on a busy machine.
        UseKestrel(options => options.Listen(IPAddress.Loopback, 0));
        StartServer();
        listens = true;
        return ClientOptions.BaseAddress;
    }

    public HatcheryDb OpenDb() => database.CreateDbContext();

    /// <summary>Adds rows and saves them.</summary>
    public async Task SeedAsync(Action<HatcheryDb> add)
    {
        await using var db = OpenDb();
        add(db);
        await db.SaveChangesAsync();
    }

    /// <summary>Calls something of the portal's own services, each time in a scope of its own.</summary>
    public async Task<TResult> CallAsync<TService, TResult>(Func<TService, Task<TResult>> call)
        where TService : notnull
    {
        await using var scope = Services.CreateAsyncScope();
        return await call(scope.ServiceProvider.GetRequiredService<TService>());
    }

    /// <summary>Judges the tanks with new facts, as the portal does at once after a reading.</summary>
    public Task<JudgeReport> JudgeAsync() => Services.GetRequiredService<Judge>().JudgeNewFactsAsync(CancellationToken.None);

    /// <summary>Judges every open tank by the clock, as the portal does each minute.</summary>
    public Task<JudgeReport> SweepAsync() => Services.GetRequiredService<Judge>().JudgeAllAsync(CancellationToken.None);

    /// <summary>Stores the sheets that wait for it, as the portal does at once when somebody says so; gives how many it worked on.</summary>
    public Task<int> StoreSheetsAsync() => Services.GetRequiredService<WaitingImports>().StoreAsync(CancellationToken.None);

    /// <summary>Puts the morning mails that are due into the outbox, as the portal does by the clock.</summary>
    public Task<int> WriteDigestsAsync() => Services.GetRequiredService<MorningDigest>().WriteDueAsync(CancellationToken.None);

    /// <summary>Puts the reminders of reports that are due into the outbox, as the portal does by the clock.</summary>
    public Task<int> WriteRemindersAsync() => Services.GetRequiredService<ReportReminders>().WriteDueAsync(CancellationToken.None);

    /// <summary>Sends the letters that are due, as the portal does at once and by the clock; gives how many it had in hand.</summary>
    public Task<int> SendLettersAsync() => Services.GetRequiredService<SendLetters>().SendDueAsync(CancellationToken.None);

    /// <summary>Nobody: no cookie, no key. Redirections are answers, not followed.</summary>
    public HttpClient Anonymous() => listens
        ? new HttpClient(new SocketsHttpHandler { AllowAutoRedirect = false }) { BaseAddress = ClientOptions.BaseAddress }
        : CreateClient(new WebApplicationFactoryClientOptions { AllowAutoRedirect = false, BaseAddress = ClientOptions.BaseAddress });

    public HttpClient ClientWithKey(string key)
    {
        var client = Anonymous();
        client.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", key);
        return client;
    }

    /// <summary>A person of the programme, signed in by the sign-in page.</summary>
    public async Task<HttpClient> ClientAs(Role role, TestProgramme programme)
    {
        var client = Anonymous();
        await client.SignInAsync(programme.EmailOf(role), TestWorld.Password);
        return client;
    }

    public override async ValueTask DisposeAsync()
    {
        await base.DisposeAsync();
        if (ownsDatabase)
        {
            await database.DisposeAsync();
        }
    }

    protected override void ConfigureWebHost(IWebHostBuilder builder)
    {
        builder.UseEnvironment(settings.Environment);
        builder.UseSetting("Tankside:Database", Database.Kind.ToString());
        builder.UseSetting("ConnectionStrings:Tankside", Database.ConnectionString);
        builder.UseSetting("Tankside:PublicUrl", PublicUrl);
        // No test changes a settings file, and each host would watch them.
        builder.UseSetting("hostBuilder:reloadConfigOnChange", "false");
        // Only what went wrong is worth a line between the tests.
        builder.UseSetting("Serilog:MinimumLevel:Default", "Warning");
        builder.UseSetting("Serilog:MinimumLevel:Override:Microsoft.Hosting.Lifetime", "Warning");
        builder.UseSetting("Serilog:MinimumLevel:Override:Microsoft.AspNetCore.DataProtection", "Error");
        foreach (var (key, value) in settings.Keys)
        {
            builder.UseSetting(key, value);
        }

        builder.ConfigureTestServices(services =>
        {
            services.Replace(ServiceDescriptor.Singleton<TimeProvider>(Time));
            // A test that counts what the database is asked counts its own.
            services.Configure<HealthCheckPublisherOptions>(o => o.Delay = o.Period = TimeSpan.FromDays(1));
            services.Configure<PasswordHasherOptions>(o => o.IterationCount = TestWorld.PasswordRounds);
            if (!settings.JudgeWorks)
            {
                Rest<JudgeWorker>(services);
                Rest<ImportWorker>(services);
            }

            if (!settings.MailWorks)
            {
                Rest<OutboxWorker>(services);
                Rest<DigestWorker>(services);
                Rest<LetGoWorker>(services);
            }

            settings.Services(services);
        });
    }

    /// <summary>What works by itself in the portal happens in a test when the test calls it.</summary>
    private static void Rest<TWorker>(IServiceCollection services) =>
        services.Remove(services.Single(s => s.ServiceType == typeof(IHostedService) && s.ImplementationType == typeof(TWorker)));
}

/// <summary>How a <see cref="PortalHost"/> differs from the usual one.</summary>
public sealed record PortalHostSettings
{
    /// <summary>What the clock shows at first, UTC.</summary>
    public DateTime Now { get; init; } = TestWorld.Now;

    public string Environment { get; init; } = Environments.Development;

    /// <summary>True to let the judge, and the storing of sheets, work by themselves; otherwise the test calls them.</summary>
    public bool JudgeWorks { get; init; }

    /// <summary>True to let letters be written and sent by themselves; otherwise the test calls it.</summary>
    public bool MailWorks { get; init; }

    /// <summary>Configuration keys and their values.</summary>
    public IReadOnlyDictionary<string, string> Keys { get; init; } = new Dictionary<string, string>();

    /// <summary>Changes to the portal's services, such as a mail sink.</summary>
    public Action<IServiceCollection> Services { get; init; } = _ => { };
}
