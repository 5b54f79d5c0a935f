using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Tankside.Portal.Demo;
using Tankside.Portal.Demo.Simulated;
using Tankside.Portal.Shell;

namespace Tankside.Portal.Commands;

/// <summary>Writes a made-up season of any size into an empty database, to see how an installation of that size behaves.</summary>
public static class SimulateCommand
{
    private const int MostTanks = 99_999, MostDays = 366, MostMinutes = 24 * 60;

    public static Command? Parse(string[] words) =>
        Words.Parse(words, "--tanks", "--days", "--seed", "--logger-minutes") is { } options
        && Whole(options["--tanks"], 1, MostTanks) is { } tanks && Whole(options["--days"], 1, MostDays) is { } days
        && Whole(options["--seed"], int.MinValue, int.MaxValue) is { } seed
        && (options["--logger-minutes"] is null || Whole(options["--logger-minutes"], 1, MostMinutes) is not null)
            ? new Command((services, cancel) => WriteAsync(services, new SimulatedSize(tanks, days, seed, Whole(options["--logger-minutes"], 1, MostMinutes)), cancel))
            : null;

    private static async Task<int> WriteAsync(IServiceProvider services, SimulatedSize size, CancellationToken cancel)
    {
        if (services.GetRequiredService<IHostEnvironment>().IsProduction())
        {
            await Console.Error.WriteLineAsync("A made-up season has printed passwords and is never written in Production. Nothing was written.");
            return ExitCodes.Failed;
        }

        var isEmpty = false;
        await FirstSteps.MigrateAsync(services, cancel, async db => isEmpty = !await db.Programmes.AnyAsync(cancel));
        if (!isEmpty)
        {
            await Console.Error.WriteLineAsync("This database holds a programme already. Nothing was written.");
            return ExitCodes.Failed;
        }

        SimulatedReport report;
        using (var progress = new Progress(Console.Error, "tanks written"))
        {
            var now = services.GetRequiredService<TimeProvider>().GetUtcNow().UtcDateTime;
            report = await ActivatorUtilities.CreateInstance<SimulatedSeason>(services).WriteAsync(size, now, progress.Tell, cancel);
        }

        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"rows {report.Rows}, readings {report.Readings}, seconds {report.Seconds:0.0}, rows/s {report.Rows / report.Seconds:0}"));
        await DemoSeason.PrintPeopleAsync(services, Console.Out, cancel);
        return ExitCodes.Good;
    }

    private static int? Whole(string? text, int least, int most) =>
        int.TryParse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var number) && number >= least && number <= most ? number : null;
}
