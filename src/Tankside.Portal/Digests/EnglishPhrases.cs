using Tankside.Hatchery.Flags;
using Tankside.Portal.Flags;
using Tankside.Science.Units;

namespace Tankside.Portal.Digests;

internal sealed class EnglishPhrases : LetterPhrases
{
    public override string MorningRound => "Your morning round";

    public override string WholeRound => "The whole round";

    public override string YourMails => "When such mails come, or that none come";

    public override string TakeTheCall => "Take the call on that page before you ring, so that nobody else rings too.";

    public override string Answer(int calls, int well, int silent)
    {
        var need = calls switch
        {
            0 => "No tank needs you this morning",
            1 => "1 tank needs you this morning",
            _ => $"{CountWords.Number(calls)} tanks need you this morning",
        };
        return $"{need}; {CountWords.Number(well)} {(well == 1 ? "is" : "are")} well{(silent == 0 ? "" : $"; {CountWords.Number(silent)} {(silent == 1 ? "is" : "are")} silent")}.";
    }

    public override string CannotWait(string which) => $"Act now: {which}";

    public override string SeveralCannotWait(int tanks) => $"{CountWords.Number(tanks)} tanks cannot wait.";

    public override string Urgency(Urgency urgency) => FlagWords.Of(urgency);

    public override string Reason(RoundRow row, RoundNow round) =>
        row.Leading.Reason + (row.Troubles.Count > 1 ? $" Also: {string.Join(", ", row.Troubles.Skip(1).Select(t => FlagWords.Of(t.Flag.Kind)))}." : "");

    public override string HoursLeft(Band hours) => hours.High <= 0 ? "By the numbers the time is up; nobody has looked yet." : $"Hours left: {Span(hours)}.";

    public override string Ring(IReadOnlyList<Adult> adults) => $"Ring: {People(adults)}";

    public override string TakenBy(string name) => $"{name} has it in hand.";

    public override string Doubts(int readings) => readings == 1
        ? "1 reading waits for somebody to say what was meant."
        : $"{CountWords.Number(readings)} readings wait for somebody to say what was meant.";

    public override string More(int calls) => $"And {CountWords.Number(calls)} more in the round.";

    public override string Sender(string programme) => $"{programme}, by Tankside";
}
