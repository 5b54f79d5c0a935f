using Tankside.Hatchery.Digests;
using Tankside.Hatchery.People;
using Tankside.Portal.Flags;

namespace Tankside.Portal.Digests.Announcements;

/// <summary>What became of the letters of an announcement, in words.</summary>
internal static class LetterStates
{
    /// <summary>"12 sent, 1 bounced".</summary>
    public static string Count(ListedAnnouncement one)
    {
        if (one.Announcement.TakenBackAt is not null)
        {
            return "taken back, none went";
        }

        (int Count, string Word)[] states =
        [
            (one.Count(LetterState.Sent), "sent"),
            (one.Count(LetterState.KeptAsFile), "kept as a file"),
            (one.Count(LetterState.Waiting, LetterState.Sending), "waiting"),
            (one.Count(LetterState.Bounced), "bounced"),
            (one.Count(LetterState.Unsure), "unsure"),
            (one.Count(LetterState.GivenUp), "not sent"),
        ];
        var words = string.Join(", ", states.Where(s => s.Count > 0).Select(s => $"{CountWords.Number(s.Count)} {s.Word}"));
        return words.Length > 0 ? words : "none";
    }

    public static string Of(ReaderOfAnnouncement reader, TimeWords time) => (reader.Without, reader.Letter) switch
    {
        (WhyNoLetter.Left, _) => "no letter: they have left the announcements",
        (WhyNoLetter.NoAddress, _) => "no letter: no address",
        (WhyNoLetter.MadeUp, _) => "no letter: a made-up person of the demo",
        (_, null) => "erased with the person’s data",
        (_, { State: LetterState.Waiting } l) => $"waits until {time.When(l.NotBefore)}{(l.Trouble is { } trouble ? $". {trouble}" : "")}",
        (_, { State: LetterState.Sending }) => "is being sent",
        (_, { State: LetterState.Sent } l) => $"sent {time.When(l.SentAt!.Value)}",
        (_, { State: LetterState.KeptAsFile }) => "kept as a file on the server: no mail server is set",
        (_, { State: LetterState.Unsure } l) => $"unsure. {l.Trouble}",
        (_, { State: LetterState.Bounced } l) => $"bounced. {l.Trouble}",
        (_, var l) => l.Trouble ?? "not sent",
    };

    public static string Of(WhyNoLetter why) => why switch
    {
        WhyNoLetter.Left => "has left the announcements",
        WhyNoLetter.NoAddress => "no address",
        WhyNoLetter.MadeUp => "a made-up person of the demo: no mail server is bothered with them",
    };
}
