using System.Diagnostics;
using Microsoft.EntityFrameworkCore;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Load.Drill;

/// <summary>
/// Two portals behind nginx on a primary and its replica, all as processes, loggers, classes and people at them. A portal is killed, one is
/// stopped, the primary is killed and the replica made the primary. Told is what was refused for how long, and whether every reading that was
/// answered as stored is there, once.
/// </summary>
public static class FailoverDrill
{
    private const string Database = "tankside";
    private const int Loggers = 4, Classes = 4, People = 3;

    /// <summary>Somebody, or a watcher, has to see that the primary is gone.</summary>
    private static readonly TimeSpan Noticing = TimeSpan.FromSeconds(3);

    public static async Task<string> RunAsync(bool quick)
    {
        if ((PostgresPair.WhyUnavailable ?? Nginx.WhyUnavailable) is { } why)
        {
            return why;
        }

        var calm = TimeSpan.FromSeconds(quick ? 6 : 20);
        var tanks = new LoadTanks(50);
        using var pair = await PostgresPair.StartAsync();
        await pair.CreateAsync(Database);
        await tanks.SeedTodayAsync(pair.PrimaryOf(Database));
        using var nodes = new Nodes(pair.ChoiceOf(Database));
        await nodes.StartAsync();
        var answers = new Answers();
        using var enough = new CancellationTokenSource();
        // The first sign-in makes the quick hash of the tests a slow one, which ends other sessions of the same person.
        await using var browser = await OpenRound.StartAsync(nodes.Address, tanks.Programme);
        var traffic = new Traffic(nodes.Address, nodes.Certificate, tanks, answers, TimeProvider.System, Pace.Busy, enough.Token).RunAsync(Loggers, Classes, People);

        answers.Happens("nothing");
        await Task.Delay(calm);
        answers.Happens("a portal killed");
        var comeBack = await browser.SurvivesAsync(nodes.KillAsync);
        await Task.Delay(calm);
        answers.Happens("it starts again");
        await nodes.StartAgainAsync();
        await Task.Delay(calm);
        answers.Happens("a portal told to stop");
        var comeBackStopped = await browser.SurvivesAsync(nodes.StopAsync);
        await Task.Delay(calm);
        answers.Happens("it starts again");
        await nodes.StartAgainAsync();
        await Task.Delay(calm);
        answers.Happens("the primary killed");
        var watch = Stopwatch.StartNew();
        pair.KillPrimary();
        await Task.Delay(Noticing);
        pair.Promote();
        var promoted = watch.Elapsed;
        await Task.Delay(calm);
        await enough.CancelAsync();
        await traffic;

        return string.Join('\n',
        [
            "", "| what happens | to | answered well | refused | longest without a good answer | longest that one waited | most tries |", "|---|---|---|---|---|---|---|", .. answers.Rows(),
            FormattableString.Invariant($"The replica was the primary {promoted.TotalSeconds:0.0} s after the kill, {Noticing.TotalSeconds:0} of which nobody did anything."),
            $"The open round: killed, {comeBack}; stopped, {comeBackStopped}.",
            answers.Refusals.IsEmpty ? "Refusals: none." : $"Refusals: {string.Join(", ", answers.Refusals.OrderBy(r => r.Key, StringComparer.Ordinal).Select(r => $"{r.Key} ({r.Value})"))}.",
            await CountedAsync(pair.PrimaryOf(Database), answers),
        ]);
    }

    private static async Task<string> CountedAsync(DatabaseChoice database, Answers answers)
    {
        await using var db = TestDatabase.Open(database);
        var stored = await db.Readings.Select(r => r.SenderId).ToListAsync();
        var times = stored.GroupBy(id => id).ToDictionary(g => g.Key, g => g.Count());
        return $"Readings answered as stored: {answers.Accepted.Count}; of these lost: {answers.Accepted.Count(id => !times.ContainsKey(id))}; stored twice: {times.Count(t => t.Value > 1)}; stored without having been sent: {times.Keys.Except(answers.Begun).Count()}.";
    }
}
