using Tankside.Hatchery.Digests;

namespace Tankside.Portal.Digests.Announcements;

/// <summary>What an announcement says, before each reader's own values are put in.</summary>
public sealed record Wording(string SubjectEn, string TextEn, string SubjectEs, string TextEs)
{
    public static Wording Of(Announcement a) => new(a.SubjectEn, a.TextEn, a.SubjectEs, a.TextEs);

    public bool Has(string language) => (language == "es" ? TextEs : TextEn).Length > 0;

    public IReadOnlyList<Placeholder> Placeholders => Announcements.Placeholders.In(string.Join('\n', SubjectEn, TextEn, SubjectEs, TextEs));

    /// <summary>One reader's letter. Without a text in their language they get the other one, with a line that says so.</summary>
    public (string Subject, string Text) For(ReaderFacts reader, string language, string programme)
    {
        var spoken = Has(language) ? language : language == "es" ? "en" : "es";
        var (subject, text) = spoken == "es" ? (SubjectEs, TextEs) : (SubjectEn, TextEn);
        string? Value(Placeholder of) => reader.Value(of, spoken);
        var note = spoken == language ? "" : language == "es" ? "(Este mensaje existe solo en inglés.)\n\n" : "(This message exists in Spanish only.)\n\n";
        var sender = language == "es" ? $"{programme}, por Tankside" : $"{programme}, by Tankside";
        return (Announcements.Placeholders.Fill(subject, Value, spoken), $"{note}{Announcements.Placeholders.Fill(text, Value, spoken)}\n\n{sender}");
    }
}
