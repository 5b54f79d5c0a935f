using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Load.Clock;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Load.Faults;

/// <summary>
/// The clock jumps, or the programme's zone changes its hour, while loggers and classes go on. Readings keep their instants, a day has one
/// morning mail, no tank that is read is called silent, and every tank is still judged by the clock afterwards.
/// </summary>
public static class ClockJumps
{
    private const double Fast = 30;

    /// <summary>Wednesday, a quarter of an hour before the morning mail at 06:30 in Denver.</summary>
    private static readonly DateTime BeforeTheMail = new(2027, 2, 3, 13, 15, 0, DateTimeKind.Utc);

    /// <summary>A quarter of an hour before the hour is skipped, and before it comes twice.</summary>
    private static readonly DateTime BeforeSpring = new(2027, 3, 14, 8, 45, 0, DateTimeKind.Utc), BeforeAutumn = new(2026, 11, 1, 7, 45, 0, DateTimeKind.Utc);

    public static async Task<IReadOnlyList<Tally>> RunAsync(DatabaseKind kind, bool quick) =>
    [
        await RunAsync(new Tally("clock: 3 h forward", kind), kind, BeforeTheMail, quick, hands => hands.Jump(TimeSpan.FromHours(3))),
        await RunAsync(new Tally("clock: 1 h back", kind), kind, BeforeTheMail.AddMinutes(10), quick, hands => hands.Jump(TimeSpan.FromHours(-1))),
        await RunAsync(new Tally("clock: summer time begins", kind), kind, BeforeSpring, quick, _ => { }),
        await RunAsync(new Tally("clock: summer time ends", kind), kind, BeforeAutumn, quick, _ => { }),
    ];

    private static async Task<Tally> RunAsync(Tally tally, DatabaseKind kind, DateTime from, bool quick, Action<ClockHands> happens)
    {
        using var hands = new ClockHands(from, Fast);
        await using var database = await TestDatabase.CreateAsync(kind);
        await using var mail = new MailServer();
        var metrics = new Uri($"http://127.0.0.1:{Loopback.FreePort()}/metrics");
        using var place = await TrafficPlace.SeedAsync(database.Choice, null, hands, mail.Keys);
        hands.Set(from);
        // Without the people's pages: what they do is not what a clock changes.
        await place.ServeAsync(loggers: 6, classes: 4, people: 0, metrics);
        await Task.Delay(TimeSpan.FromMinutes(quick ? 10 : 20) / Fast);
        var before = await SweepsAsync(metrics);
        var (read, called) = await ReadAndCalledAsync(place);
        happens(hands);
        await Task.Delay(TimeSpan.FromMinutes(quick ? 20 : 100) / Fast);
        var swept = await SweepsAsync(metrics) - before;
        if (swept < (quick ? 5 : 25))
        {
            tally.Wrong(string.Create(CultureInfo.InvariantCulture, $"tanks were judged by the clock only {swept} times afterwards"));
        }

        await place.EndAsync();
        await place.CountAsync(tally);
        await LookAsync(place, tally, mail, read, called);
        return tally;
    }

    /// <summary>Tanks that were read so far, and flags of silence: before its first reading a tank was silent indeed.</summary>
    private static async Task<(HashSet<Guid> Tanks, HashSet<Guid> Flags)> ReadAndCalledAsync(TrafficPlace place)
    {
        await using var db = place.OpenDb();
        return ([.. await db.Readings.Select(r => r.TankId).Distinct().ToListAsync()], [.. await db.Flags.Where(f => f.Kind == FlagKind.Silent).Select(f => f.Id).ToListAsync()]);
    }

    private static async Task LookAsync(TrafficPlace place, Tally tally, MailServer mail, HashSet<Guid> read, HashSet<Guid> called)
    {
        await using var db = place.OpenDb();
        var stored = await db.Readings.ToDictionaryAsync(r => r.SenderId, r => r.At);
        var other = place.Answers.ReadAt.Count(sent => stored.TryGetValue(sent.Key, out var at) && at != sent.Value);
        if (other > 0)
        {
            tally.Wrong($"{other} readings have another instant than was sent");
        }

        var silent = (await db.Flags.Where(f => f.Kind == FlagKind.Silent && f.TankId != null).Select(f => new { f.Id, Tank = f.TankId!.Value }).ToListAsync())
            .Count(f => read.Contains(f.Tank) && !called.Contains(f.Id));
        if (silent > 0)
        {
            tally.Wrong($"{silent} tanks that are read were called silent");
        }

        var twice = mail.All.GroupBy(m => (m.To.ToString(), m.Subject, m.Date.UtcDateTime.Date)).Count(g => g.Count() > 1 && g.Key.Subject?.Contains("round", StringComparison.OrdinalIgnoreCase) == true);
        if (twice > 0)
        {
            tally.Wrong($"{twice} people got two morning mails of one day");
        }

        tally.Saw($"letters: {mail.All.Count}");
    }

    /// <summary>How often every tank was judged by the clock so far.</summary>
    private static async Task<int> SweepsAsync(Uri metrics)
    {
        using var client = new HttpClient();
        foreach (var line in (await client.GetStringAsync(metrics)).Split('\n'))
        {
            if (line.StartsWith("tankside_sweep_duration_seconds_count", StringComparison.Ordinal))
            {
                return (int)double.Parse(line[(line.IndexOf('}') + 1)..].Trim().Split(' ')[0], CultureInfo.InvariantCulture);
            }
        }

        return 0;
    }
}
