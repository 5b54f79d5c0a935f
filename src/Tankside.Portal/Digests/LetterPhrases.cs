using Tankside.Hatchery.Flags;
using Tankside.Portal.Flags;
using Tankside.Science.Units;

namespace Tankside.Portal.Digests;

/// <summary>An adult of a school, as far as they are known.</summary>
public sealed record Adult(string Name, string? Phone);

/// <summary>What the mails about the round say, in a person's language.</summary>
public abstract class LetterPhrases
{
    private static readonly LetterPhrases English = new EnglishPhrases(), Spanish = new SpanishPhrases();

    public static LetterPhrases In(string language) => language.StartsWith("es", StringComparison.OrdinalIgnoreCase) ? Spanish : English;

    /// <summary>Subject of a morning mail that could not be worded.</summary>
    public abstract string MorningRound { get; }

    public abstract string WholeRound { get; }

    /// <summary>The way to the other settings of one's mails.</summary>
    public abstract string YourMails { get; }

    /// <summary>How not to ring twice.</summary>
    public abstract string TakeTheCall { get; }

    /// <summary>The morning's answer in one sentence.</summary>
    public abstract string Answer(int calls, int well, int silent);

    /// <param name="which">One tank's place, or several codes.</param>
    public abstract string CannotWait(string which);

    public abstract string SeveralCannotWait(int tanks);

    public abstract string Urgency(Urgency urgency);

    /// <summary>School, room and code of a tank, or what several tanks share.</summary>
    public virtual string Who(RoundRow row) => row is RoundCall call ? $"{call.Who} ({call.Place.Tank.Code})" : row.Who;

    /// <summary>Why to ring, in one sentence or two.</summary>
    public abstract string Reason(RoundRow row, RoundNow round);

    public abstract string HoursLeft(Band hours);

    /// <summary>Whom to ring.</summary>
    public abstract string Ring(IReadOnlyList<Adult> adults);

    public abstract string TakenBy(string name);

    public abstract string Doubts(int readings);

    public abstract string More(int calls);

    public abstract string Sender(string programme);

    /// <summary>"2.1 to 4.4", or whole numbers from ten up.</summary>
    protected static string Span(Band hours)
    {
        var format = hours.Low < 10 ? "0.#" : "0";
        var (low, high) = (Number(Math.Max(0, hours.Low), format), Number(Math.Max(0, hours.High), format));
        return low == high ? low : $"{low}–{high}";
    }

    protected static string Number(double value, string format) => value.ToString(format, System.Globalization.CultureInfo.InvariantCulture);

    private protected static string People(IReadOnlyList<Adult> adults) =>
        string.Join("; ", adults.Select(a => a.Phone is { } phone ? $"{a.Name}, {phone}" : a.Name));
}
