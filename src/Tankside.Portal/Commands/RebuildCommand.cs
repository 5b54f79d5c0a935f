using System.Globalization;
using Tankside.Portal.Flags;
using Tankside.Portal.Shell;

namespace Tankside.Portal.Commands;

/// <summary>Makes the running state of every tank again from its readings, and says how far it is.</summary>
public static class RebuildCommand
{
    public static Command? Parse(string[] words) => words.Length > 0 ? null : new Command(async (services, cancel) =>
    {
        await FirstSteps.MigrateAsync(services, cancel);
        var tanks = 0;
        using var progress = new Progress(Console.Error, "tanks rebuilt");
        var days = await services.GetRequiredService<RunningState>().RebuildAsync((done, of) => progress.Tell(tanks = done, of), cancel);
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"tanks {tanks}, days {days}"));
        return ExitCodes.Good;
    });
}
