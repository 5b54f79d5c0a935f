using Tankside.Portal.Shell.Paper;

namespace Tankside.Fuzz.Tests.Targets;

/// <summary>Names on paper: whatever letters they are of, they are put in order and shaped, and none is lost.</summary>
public static class OnPaper
{
    private static readonly string[] Words = ["Birch Lane", "שלום", "مدرسة", "لا", "1,200", "2026-27", "(", ")", "«", "A001", "é", "e\u0301", "東京", "ـ", "\u200D", "😀", "٣", "-", "/"];

    public static Target Target { get; } = new("on-paper", dice => Texts.Bytes(Texts.Of(dice, Words, 10)), Read) { Words = Words, LongestInput = 1_000, MostBytesOnce = 16 << 20, MostBytesEach = 3_000 };

    private static string Read(byte[] bytes)
    {
        var text = Texts.Read(bytes);
        var shown = PaperLetters.Shown(text);
        var ordered = VisualOrder.Of(text);
        Held.That(ordered.Length == text.Length, "Putting letters in order lost some.");
        var joined = JoinedLetters.Of(text);
        return $"{shown == text} {ordered == text} {joined == text}";
    }
}
