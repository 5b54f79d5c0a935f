using Tankside.Hatchery.Digests;

namespace Tankside.Portal.Digests.Announcements;

/// <summary>Reads subject and text in both languages, of an announcement and of a template.</summary>
internal static class WordingRules
{
    /// <summary>Null when something was refused and a field says why.</summary>
    public static Wording? Read(string? subjectEn, string? textEn, string? subjectEs, string? textEs, Action<string, string> refuse)
    {
        var wording = new Wording(Line(subjectEn), Text(textEn), Line(subjectEs), Text(textEs));
        var good = true;
        if (!wording.Has("en") && !wording.Has("es") && wording.SubjectEn.Length + wording.SubjectEs.Length == 0)
        {
            Refuse(nameof(AnnouncementForm.TextEn), "Write it in English or in Spanish, or in both.");
        }

        Check(nameof(AnnouncementForm.SubjectEn), nameof(AnnouncementForm.TextEn), wording.SubjectEn, wording.TextEn);
        Check(nameof(AnnouncementForm.SubjectEs), nameof(AnnouncementForm.TextEs), wording.SubjectEs, wording.TextEs);
        return good ? wording : null;

        void Check(string subjectField, string textField, string subject, string text)
        {
            if (subject.Length == 0 != (text.Length == 0))
            {
                Refuse(subject.Length == 0 ? subjectField : textField, "Fill in both subject and text, or leave both empty.");
            }

            Long(subjectField, subject, Announcement.LongestSubject);
            Long(textField, text, Announcement.LongestText);
            Known(subjectField, subject);
            Known(textField, text);
        }

        void Long(string field, string words, int most)
        {
            if (words.Length > most)
            {
                Refuse(field, $"At most {most} letters, please; these are {words.Length}.");
            }
        }

        void Known(string field, string words)
        {
            if (Placeholders.Check(words) is { } wrong)
            {
                Refuse(field, wrong);
            }
        }

        void Refuse(string field, string why)
        {
            good = false;
            refuse(field, why);
        }
    }

    private static string Text(string? typed) => (typed ?? "").ReplaceLineEndings("\n").Trim();

    /// <summary>A subject is one line: a line break in it would begin another header.</summary>
    private static string Line(string? typed) => (typed ?? "").ReplaceLineEndings(" ").Trim();
}
