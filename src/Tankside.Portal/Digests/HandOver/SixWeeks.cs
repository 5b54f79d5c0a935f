using Tankside.Portal.Accounts;
using Tankside.Portal.Flags.Coming;
using Tankside.Portal.Shell;

namespace Tankside.Portal.Digests.HandOver;

/// <summary>What the calendars hold for the next six weeks, in one list.</summary>
public sealed class SixWeeks(ComingUp coming)
{
    private const int Days = 42;

    public async Task<HandOverPart> LoadAsync(CurrentUser user, CancellationToken cancel)
    {
        var (time, lines) = await coming.LoadAsync(user, Days, Say.InEnglish, cancel);
        return new HandOverPart(
            "weeks", "The next six weeks",
            "Hatch and swim-up are forecasts: half of the fish between these days, 8 times in 10; they move with the readings. What is late or waits for an answer stands first.",
            ["When", "What", "Where"], [0.26, 0.32, 0.42],
            [.. lines.Select(c => (IReadOnlyList<string>)[time.Stretch(c.First, c.Last), c.What, c.Where])],
            "Nothing is known for the next six weeks.");
    }
}
