using System.Text;
using Tankside.Hatchery.Flags;
using Tankside.Portal.Places;

namespace Tankside.Portal.Flags.FirstAidTexts;

/// <summary>Whom the reader answers, and where a reading is entered.</summary>
/// <param name="ReadingPage">The page of today's reading, signed in.</param>
/// <param name="AnswerTo">Name and, where known, telephone or address of the person who sends.</param>
public sealed record AidSender(Uri ReadingPage, string AnswerTo);

/// <summary>First aid as plain text: whole for a mail, cut to what matters first for a text message.</summary>
/// <param name="Subject">Of the mail, e.g. "First aid, tank A007: warm water".</param>
/// <param name="FirstLine">E.g. "Hello, this is about tank A007, Room 12, Cedar Bend: warm water."</param>
public sealed record FirstAidText(string Subject, string FirstLine, string Full, string Brief)
{
    /// <summary>A text message of this many characters arrives whole on every telephone.</summary>
    public const int LongestBrief = 480;

    private const int MostBriefSteps = 3;

    /// <param name="place">Null for a shared cause, which stands at no single tank.</param>
    /// <param name="reason">What is seen, in that language.</param>
    public static FirstAidText Compose(FirstAidCard card, FlagKind kind, TankPlace? place, string reason, AidSender from, string language)
    {
        var words = new Frame(language);
        var what = KindNames.Of(kind).In(language);
        var name = place is null ? null : $"{words.Tank} {place.Tank.Code}";
        var about = place is null
            ? $"{words.Hello} {words.Cause}."
            : $"{words.Hello} {words.AboutTank} {place.Tank.Code}, {place.Room.Name}, {place.School.Name}: {what}.";
        var brief = $"{CountWords.Capital(name is null ? what : $"{name}: {what}")}.";
        var subject = name is null ? $"{words.Subject} {what}" : $"{words.Subject} {name}: {what}";
        return new FirstAidText(subject, about, Whole(card, about, reason, from, words), Cut(card, brief, reason, from, words));
    }

    private static string Whole(FirstAidCard card, string about, string reason, AidSender from, Frame words)
    {
        var text = new StringBuilder().AppendLine(about).AppendLine()
            .Append(words.Seen).Append(' ').AppendLine(reason).AppendLine()
            .AppendLine(words.DoThis);
        foreach (var (place, step) in card.Say.Index())
        {
            text.Append(place + 1).Append(". ").AppendLine(step);
        }

        text.AppendLine().Append(words.TellMe).Append(' ').AppendLine(card.AskNext).AppendLine().AppendLine(words.MindThis);
        foreach (var caution in card.Cautions)
        {
            text.Append("- ").AppendLine(caution);
        }

        return text.AppendLine()
            .Append(words.EnterReading).Append(' ').AppendLine(from.ReadingPage.AbsoluteUri)
            .Append(words.AnswerTo).Append(' ').Append(from.AnswerTo).Append('.')
            .Replace("\r\n", "\n").ToString();
    }

    /// <summary>
    /// The guard and the link always stay; then come the steps in their order while there is room, then what is seen, then the question.
    /// Steps are written so that none needs a later one to be safe.
    /// </summary>
    private static string Cut(FirstAidCard card, string brief, string reason, AidSender from, Frame words)
    {
        string[] end = [.. card.Guard is { } guard ? (string[])[guard] : [], $"{words.Reading} {from.ReadingPage.AbsoluteUri}"];
        List<string> steps = [], seen = [], asked = [];
        foreach (var (place, step) in card.Say.Take(MostBriefSteps).Index())
        {
            if (!Take(steps, $"{place + 1}. {step}"))
            {
                break;
            }
        }

        Take(seen, reason);
        Take(asked, card.AskNext);
        return Joined();

        string Joined() => string.Join('\n', [brief, .. seen, .. steps, .. asked, .. end]);

        bool Take(List<string> into, string line)
        {
            if (Joined().Length + 1 + line.Length > LongestBrief)
            {
                return false;
            }

            into.Add(line);
            return true;
        }
    }

    /// <summary>The words around the steps.</summary>
    private sealed class Frame(string language)
    {
        public string Tank { get; } = new Bilingual("tank", "tanque").In(language);

        public string Hello { get; } = new Bilingual("Hello, this is about", "Hola, se trata").In(language);

        public string AboutTank { get; } = new Bilingual("tank", "del tanque").In(language);

        public string Cause { get; } = new Bilingual("a trouble that several tanks share", "de un problema que comparten varios tanques").In(language);

        public string Subject { get; } = new Bilingual("First aid,", "Primeros auxilios,").In(language);

        public string Seen { get; } = new Bilingual("What we see:", "Lo que vemos:").In(language);

        public string DoThis { get; } = new Bilingual("Please do this first, in this order:", "Por favor haga primero esto, en este orden:").In(language);

        public string TellMe { get; } = new Bilingual("Then tell me:", "Luego dígame:").In(language);

        public string MindThis { get; } = new Bilingual("Please mind:", "Tenga cuidado:").In(language);

        public string EnterReading { get; } = new Bilingual("Enter what you read here:", "Anote aquí lo que lea:").In(language);

        public string Reading { get; } = new Bilingual("Reading:", "Lectura:").In(language);

        public string AnswerTo { get; } = new Bilingual("Answer to", "Responda a").In(language);
    }
}
