using Microsoft.EntityFrameworkCore;
using Tankside.Portal.Accounts;
using Tankside.Portal.Commands;
using Tankside.Portal.Demo;
using Tankside.Portal.Flags;
using Tankside.Storage;

namespace Tankside.Portal.Shell;

/// <summary>The first steps of the program: environment, address, configuration.</summary>
public static class Start
{
    private const string DefaultAddress = "http://localhost:5080";

    public static WebApplicationBuilder Builder(string[] args, out Command? command)
    {
        command = CommandLine.Parse(args);
        var builder = WebApplication.CreateBuilder(new WebApplicationOptions
        {
            Args = command is null ? args : [],
            EnvironmentName = EnvironmentName(args),
        });

        // A build that was not published finds its styles and scripts only through this.
        builder.WebHost.UseStaticWebAssets();
        if (string.IsNullOrEmpty(builder.Configuration[WebHostDefaults.ServerUrlsKey]))
        {
            builder.WebHost.UseUrls(DefaultAddress);
        }

        return builder;
    }

    public static TanksideOptions? TryReadOptions(WebApplicationBuilder builder)
    {
        try
        {
            return TanksideOptions.From(builder.Configuration, builder.Environment);
        }
        catch (ConfigurationException e)
        {
            Console.Error.WriteLine($"Not started. {e.Message}");
            return null;
        }
    }

    /// <summary>A published program is production. A build run in its own source tree is development, unless the environment says otherwise.</summary>
    private static string? EnvironmentName(string[] args)
    {
        if (args.Any(a => a.StartsWith("--environment", StringComparison.OrdinalIgnoreCase)))
        {
            return null;
        }

        var given = Environment.GetEnvironmentVariable("ASPNETCORE_ENVIRONMENT") ?? Environment.GetEnvironmentVariable("DOTNET_ENVIRONMENT");
        return given is null && File.Exists(Path.Combine(AppContext.BaseDirectory, "Tankside.Portal.staticwebassets.runtime.json"))
            ? Environments.Development
            : null;
    }

    /// <summary>Migrates alone, then does what has to happen before anybody else looks.</summary>
    public static Task MigrateAsync(IServiceProvider services, CancellationToken cancel, Func<HatcheryDb, Task>? afterwards = null) =>
        Databases.MigrateAloneAsync(
            services.GetRequiredService<IDbContextFactory<HatcheryDb>>(), services.GetRequiredService<TanksideOptions>().Database,
            afterwards ?? (_ => Task.CompletedTask), cancel);

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
            DemoSeason.PrintAsync(app.Services, Console.Out, CancellationToken.None).GetAwaiter().GetResult();
        }

        Console.WriteLine($"Tankside answers on {string.Join(", ", app.Urls)}");
    }
}
