using System.Globalization;
using Tankside.Portal.Flags;
using Tankside.Portal.Shell;

namespace Tankside.Portal.Commands;

/// <summary>Judges every open tank once by the clock and says what came of it.</summary>
public static class JudgeCommand
{
    public static Command? Parse(string[] words) => words.Length > 0 ? null : new Command(async (services, cancel) =>
    {
        await FirstSteps.MigrateAsync(services, cancel);
        var report = await services.GetRequiredService<Judge>().JudgeAllAsync(cancel);
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"tanks {report.Tanks}, flags opened {report.Opened}, flags cleared {report.Cleared}, seconds {report.Seconds:0.00}"));
        return ExitCodes.Good;
    });
}
