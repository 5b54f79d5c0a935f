using Microsoft.EntityFrameworkCore;
using Tankside.Portal.Accounts;
using Tankside.Portal.Demo;
using Tankside.Portal.Flags;
using Tankside.Portal.Shell;
using Tankside.Storage;
using Tankside.Storage.Readings;

namespace Tankside.Portal.Commands;

/// <summary>What happens to the database before the first request or command is answered.</summary>
public static class FirstSteps
{
    /// <summary>Migrates alone, then does what has to happen before anybody else looks.</summary>
    public static Task MigrateAsync(IServiceProvider services, CancellationToken cancel, Func<HatcheryDb, Task>? afterwards = null) =>
        Databases.MigrateAloneAsync(
            services.GetRequiredService<IDbContextFactory<HatcheryDb>>(), services.GetRequiredService<TanksideOptions>().Database,
            async db =>
            {
                await ReadingSeasons.KeepAheadAsync(db, services.GetRequiredService<TimeProvider>().GetUtcNow().UtcDateTime, cancel);
                await (afterwards?.Invoke(db) ?? Task.CompletedTask);
            },
            cancel);

    /// <summary>Before the first request: the schema, then the demo season or the set-up link, then a first judgement.</summary>
    public static async Task PrepareDatabaseAsync(this WebApplication app)
    {
        var options = app.Services.GetRequiredService<TanksideOptions>();
        var time = app.Services.GetRequiredService<TimeProvider>();
        var seeds = options is { DemoSeason: true, UsesDefaultFile: true };
        var seeded = false;
        await MigrateAsync(app.Services, CancellationToken.None, async db =>
        {
            if (await db.Programmes.AnyAsync())
            {
                return;
            }

            if (seeds)
            {
                await DemoSeason.SeedAsync(db, time.GetUtcNow().UtcDateTime, CancellationToken.None);
                seeded = true;
            }
            else if (app.Environment.IsProduction())
            {
                await SetUp.PrintLinkAsync(db, options.PublicUrl, time.GetUtcNow().UtcDateTime, Console.Out);
            }
        });
        if (seeded)
        {
            await app.Services.GetRequiredService<Judge>().JudgeAllAsync(CancellationToken.None);
        }

        if (options.UsesDefaultFile)
        {
            app.Logger.LogInformation("The embedded database is {File}", Path.Combine(options.DataFolder, "tankside.db"));
        }

        if (app.Environment.IsDevelopment())
        {
            app.Lifetime.ApplicationStarted.Register(() => PrintAddress(app, options));
        }
    }

    private static void PrintAddress(WebApplication app, TanksideOptions options)
    {
        if (options.DemoSeason)
        {
            DemoSeason.PrintAsync(app.Services, LinkAddress(app, options), Console.Out, CancellationToken.None).GetAwaiter().GetResult();
        }

        Console.WriteLine($"Tankside answers on {string.Join(", ", app.Urls)}");
    }

    /// <summary>Where the printed links lead: the public address where one is set, else where the portal really listens.</summary>
    private static Uri LinkAddress(WebApplication app, TanksideOptions options) =>
        string.IsNullOrWhiteSpace(app.Configuration["Tankside:PublicUrl"]) && app.Urls.FirstOrDefault() is { } listens
        && Uri.TryCreate(listens.Replace("0.0.0.0", "localhost", StringComparison.Ordinal).Replace("[::]", "localhost", StringComparison.Ordinal), UriKind.Absolute, out var address)
            ? address
            : options.PublicUrl;
}
