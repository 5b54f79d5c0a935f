using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Portal.People;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Commands;

/// <summary>Makes an API key and prints it alone on standard output, once.</summary>
public static class KeyCommand
{
    public static Command? Parse(string[] words)
    {
        if (words is not ["new", .. var rest] || Words.Parse(rest, "--role", "--tanks", "--name", "--programme") is not { } options
            || RoleOf(options["--role"]) is not { } role || string.IsNullOrWhiteSpace(options["--tanks"]))
        {
            return null;
        }

        return new Command((services, cancel) => MakeAsync(services, options["--name"] ?? $"{role}, made by the command", role, options["--tanks"]!, options["--programme"], cancel));
    }

    private static ApiKeyRole? RoleOf(string? word) => word switch
    {
        "logger" => ApiKeyRole.Logger,
        "coordinator" => ApiKeyRole.Coordinator,
        _ => null,
    };

    private static async Task<int> MakeAsync(IServiceProvider services, string name, ApiKeyRole role, string tanks, string? programmeName, CancellationToken cancel)
    {
        await FirstSteps.MigrateAsync(services, cancel);
        await using var db = await services.GetRequiredService<IDbContextFactory<HatcheryDb>>().CreateDbContextAsync(cancel);
        if (await OneProgramme.FindAsync(db, programmeName, cancel) is not { } programme)
        {
            return ExitCodes.Failed;
        }

        var codes = tanks == "all" ? [] : tanks.Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);
        var found = await db.Tanks.Where(t => t.ProgrammeId == programme.Id && codes.Contains(t.Code)).ToListAsync(cancel);
        if (codes.Except(found.Select(t => t.Code)).ToList() is { Count: > 0 } missing)
        {
            await Console.Error.WriteLineAsync($"No tank with the code {string.Join(", ", missing)}; no key was made.");
            return ExitCodes.Failed;
        }

        await using var scope = services.CreateAsyncScope();
        var made = await scope.ServiceProvider.GetRequiredService<IssueKey>()
            .HandleAsync(programme.Id, name, role, tanks == "all" ? null : [.. found.Select(t => t.Id)], cancel);
        if (made is not KeyOutcome.Issued(var key))
        {
            await Console.Error.WriteLineAsync(made is KeyOutcome.Refused(var why, Name: true) ? why : "--tanks names no tank; no key was made.");
            return ExitCodes.Failed;
        }

        Console.WriteLine(key);
        return ExitCodes.Good;
    }
}

/// <summary>The programme a command is about: the only one, or the one named.</summary>
public static class OneProgramme
{
    public static async Task<Programme?> FindAsync(HatcheryDb db, string? name, CancellationToken cancel)
    {
        var programmes = await db.Programmes.AsNoTracking().Where(p => name == null || p.Name == name).OrderBy(p => p.Name).ToListAsync(cancel);
        if (programmes is [var one])
        {
            return one;
        }

        await Console.Error.WriteLineAsync(programmes.Count == 0
            ? name is null ? "There is no programme in this database yet." : $"There is no programme called '{name}'."
            : $"There are several programmes; say which with --programme NAME: {string.Join(", ", programmes.Select(p => p.Name))}.");
        return null;
    }
}
