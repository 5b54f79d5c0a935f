using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Load.Clock;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Load.Faults;

/// <summary>
/// The mail server refuses, hangs, hangs up or is gone, or the portal is killed while it sends. Afterwards every letter has arrived once, or is
/// told as unsure to the lead, who decides: one that may have arrived is never sent again by itself.
/// </summary>
public static class MailTrouble
{
    private const int Letters = 12;

    /// <summary>So that the waits between two tries, of minutes and hours, pass in seconds.</summary>
    private const double Fast = 60;

    public static async Task<IReadOnlyList<Tally>> RunAsync(DatabaseKind kind, bool quick)
    {
        var lines = new List<Tally>();
        foreach (var mood in new[] { MailServerMood.Refuses, MailServerMood.Hangs, MailServerMood.HangsUp, MailServerMood.TakesAndBreaksOff })
        {
            lines.Add(await RunAsync(new Tally($"mail: {Words(mood)}", kind), kind, (_, _) => Task.CompletedTask, mood));
        }

        lines.Add(await RunAsync(new Tally("mail: the portal killed while it sends", kind), kind, async (place, server) =>
        {
            for (var i = 0; i < (quick ? 1 : 6); i++)
            {
                for (var from = server.All.Count; server.All.Count < from + 1 + i && server.All.Count < Letters * 4;)
                {
                    await Task.Delay(1);
                }

                await place.KillAsync(0);
                await place.StartAgainAsync(0);
            }
        }, MailServerMood.Takes));
        return lines;
    }

    private static async Task<Tally> RunAsync(Tally tally, DatabaseKind kind, Func<TrafficPlace, MailServer, Task> happensAsync, MailServerMood mood)
    {
        using var hands = new ClockHands(DateTime.UtcNow, Fast);
        await using var database = await TestDatabase.CreateAsync(kind);
        await using var server = new MailServer { Mood = mood };
        using var place = await TrafficPlace.SeedAsync(database.Choice, null, hands, server.Keys);
        var letters = mood == MailServerMood.Takes ? Letters * 4 : Letters;
        var ids = await WriteAsync(place, hands.Now, letters);
        await place.ServeAsync(0, 0, 0);
        await happensAsync(place, server);
        await Task.Delay(mood == MailServerMood.Takes ? TimeSpan.Zero : TimeSpan.FromSeconds(15));
        server.Mood = MailServerMood.Takes;
        await using var db = place.OpenDb();
        for (var deadline = DateTime.UtcNow.AddMinutes(4); DateTime.UtcNow < deadline && await db.OutgoingLetters.AnyAsync(l => l.State == LetterState.Waiting || l.State == LetterState.Sending);)
        {
            await Task.Delay(250);
        }

        var arrived = server.All.CountBy(m => m.MessageId!.Split('@')[0]).ToDictionary();
        var states = await db.OutgoingLetters.AsNoTracking().Where(l => ids.Contains(l.Id)).ToListAsync();
        tally.StoredMany(states.Count);
        tally.LostMany(states.Count(l => !arrived.ContainsKey($"{l.Id:N}") && l.State is not (LetterState.Unsure or LetterState.GivenUp)));
        tally.DoubledMany(arrived.Count(a => a.Value > 1));
        foreach (var (state, all) in states.GroupBy(l => l.State).Select(g => (g.Key, g.ToList())))
        {
            tally.Saw($"{state}: {all.Count}, of these {all.Count(l => arrived.ContainsKey($"{l.Id:N}"))} have arrived");
        }

        await place.EndAsync();
        return tally;
    }

    private static async Task<List<Guid>> WriteAsync(TrafficPlace place, DateTime now, int count)
    {
        await using var db = place.OpenDb();
        var to = place.Tanks.Programme.People[Role.Coordinator];
        var letters = Enumerable.Range(0, count).Select(i => new OutgoingLetter
        {
            Id = Guid.NewGuid(),
            Key = $"trial {i} {Guid.NewGuid():N}",
            ProgrammeId = place.Tanks.Programme.Programme.Id,
            PersonId = to.Id,
            To = to.Email!,
            Subject = "A trial",
            Text = "It is to arrive once.",
            WrittenAt = now,
            NotBefore = now,
            State = LetterState.Waiting,
        }).ToList();
        db.AddRange(letters);
        await db.SaveChangesAsync();
        return [.. letters.Select(l => l.Id)];
    }

    private static string Words(MailServerMood mood) => mood switch
    {
        MailServerMood.Refuses => "the server refuses",
        MailServerMood.Hangs => "it has the letter and never answers",
        MailServerMood.HangsUp => "it hangs up before the letter",
        MailServerMood.TakesAndBreaksOff => "it has the letter and hangs up",
        MailServerMood.Takes => "it takes them",
    };
}
