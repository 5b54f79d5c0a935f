using System.Globalization;
using MailKit.Net.Smtp;
using MailKit.Security;
using Microsoft.AspNetCore.DataProtection.KeyManagement;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Diagnostics.HealthChecks;
using Tankside.Portal.Accounts.Mail;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Commands;

/// <summary>Checks what an installation stands on, a line each; 1 when something is wrong.</summary>
public static class Doctor
{
    public static Command? Parse(string[] words) => words.Length > 0 ? null : new Command(async (services, cancel) =>
    {
        (string What, Func<Task<string>> Check)[] checks =
        [
            ("configuration", () => Task.FromResult(Configuration(services))),
            ("database", () => DatabaseAsync(services, cancel)),
            ("mail", () => MailAsync(services, cancel)),
            ("clock", () => OfHealthAsync("clock", services, cancel)),
            ("backup", () => OfHealthAsync("backup", services, cancel)),
            ("data-protection keys", () => Task.FromResult(Keys(services))),
        ];
        if (services.GetRequiredService<DatabaseChoice>() is var database && database.IsOnSeveral())
        {
            checks = [.. checks, ("database hosts", () => HostsAsync(database, cancel))];
        }

        var wrong = 0;
        foreach (var (what, check) in checks)
        {
            try
            {
                Console.WriteLine($"good   {what}: {await check()}");
            }
            catch (Exception e) when (e is not OperationCanceledException)
            {
                wrong++;
                Console.WriteLine($"wrong  {what}: {e.GetBaseException().Message.ReplaceLineEndings(" ")}");
            }
        }

        return wrong == 0 ? ExitCodes.Good : ExitCodes.Failed;
    });

    private static string Configuration(IServiceProvider services)
    {
        var options = services.GetRequiredService<TanksideOptions>();
        return $"{options.Database.Kind}, public address {options.PublicUrl}";
    }

    private static async Task<string> DatabaseAsync(IServiceProvider services, CancellationToken cancel)
    {
        await using var db = await services.GetRequiredService<IDbContextFactory<HatcheryDb>>().CreateDbContextAsync(cancel);
        if (!await db.Database.CanConnectAsync(cancel))
        {
            await db.Database.OpenConnectionAsync(cancel); // Says why.
        }

        var pending = (await db.Database.GetPendingMigrationsAsync(cancel)).ToList();
        return pending.Count == 0
            ? $"answers, newest schema, {await db.Tanks.CountAsync(cancel)} tanks"
            : throw new InvalidOperationException($"the schema is {pending.Count} steps behind; run the command migrate");
    }

    /// <summary>The server, and what became of the letters that were to go through it.</summary>
    private static async Task<string> MailAsync(IServiceProvider services, CancellationToken cancel)
    {
        var server = await MailServerAsync(services, cancel);
        await using var db = await services.GetRequiredService<IDbContextFactory<HatcheryDb>>().CreateDbContextAsync(cancel);
        if (!await db.Database.CanConnectAsync(cancel))
        {
            return server;
        }

        var counts = await LetterCounts.LoadAsync(db, services.GetRequiredService<TimeProvider>().GetUtcNow().UtcDateTime, cancel);
        return counts.Good ? $"{server}; no letter is late, unsure or given up" : throw new InvalidOperationException($"{counts}; the lead sees them at /letters");
    }

    private static async Task<string> MailServerAsync(IServiceProvider services, CancellationToken cancel)
    {
        var mail = services.GetRequiredService<TanksideOptions>().Mail;
        if (mail.Host is null)
        {
            return services.GetRequiredService<IHostEnvironment>().IsProduction()
                ? throw new InvalidOperationException("no Tankside:Mail:Host is set, so invitations and password resets reach nobody")
                : "no host set; mails are dropped as files under data/mail";
        }

        using var smtp = new SmtpClient { Timeout = 10_000 };
        await smtp.ConnectAsync(mail.Host, mail.Port, mail.StartTls ? SecureSocketOptions.StartTls : SecureSocketOptions.Auto, cancel);
        if (mail.User is { Length: > 0 } user)
        {
            await smtp.AuthenticateAsync(user, mail.Password ?? "", cancel);
        }

        await smtp.DisconnectAsync(true, cancel);
        return $"{mail.Host}:{mail.Port.ToString(CultureInfo.InvariantCulture)} takes mail";
    }

    /// <summary>What the portal itself is asked by a probe.</summary>
    private static async Task<string> OfHealthAsync(string check, IServiceProvider services, CancellationToken cancel)
    {
        var report = await services.GetRequiredService<HealthCheckService>().CheckHealthAsync(c => c.Name == check, cancel);
        var (said, words) = (report.Entries[check].Status, report.Entries[check].Description ?? "");
        return said == HealthStatus.Healthy ? words : throw new InvalidOperationException(words);
    }

    /// <summary>Says what each host is; throws when one does not answer, or when not exactly one is the primary.</summary>
    private static async Task<string> HostsAsync(DatabaseChoice database, CancellationToken cancel)
    {
        var hosts = await DatabaseHosts.AskAsync(database, cancel);
        var primaries = hosts.Count(h => h.State == HostState.Primary);
        var all = string.Join("; ", hosts.Select(host => host.State switch
        {
            HostState.Primary => $"{host.Name} is the primary",
            HostState.Replica => $"{host.Name} is a replica",
            HostState.Silent => $"{host.Name} does not answer ({host.Trouble})",
        }));
        return primaries == 1 && hosts.All(h => h.State != HostState.Silent) ? all
            : throw new InvalidOperationException(primaries > 1 ? $"{all}. Only one may be: stop the one that was replaced, at once" : all);
    }

    private static string Keys(IServiceProvider services)
    {
        var keys = services.GetRequiredService<IKeyManager>().GetAllKeys();
        var good = keys.Count(k => !k.IsRevoked && k.ExpirationDate > services.GetRequiredService<TimeProvider>().GetUtcNow());
        return good > 0 ? $"{good} in the database" : "none yet; the first start makes one";
    }
}
