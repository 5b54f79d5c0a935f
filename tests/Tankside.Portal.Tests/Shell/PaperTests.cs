using Tankside.Portal.Shell.Paper;

namespace Tankside.Portal.Tests.Shell;

public class PaperTests
{
    private static readonly DateTime Now = new(2026, 11, 30, 8, 0, 0, DateTimeKind.Utc);

    [Fact]
    public void A_text_is_wrapped_between_words_as_long_as_they_fit() =>
        Assert.Equal(["the cold", "water", "moves"], LineBreaks.Of("the cold water moves", 8, t => t.Length, wholeWords: true));

    [Fact]
    public void A_word_wider_than_the_line_asks_for_smaller_letters_first_and_is_parted_last()
    {
        Assert.Null(LineBreaks.Of("a hatcheryroom", 8, t => t.Length, wholeWords: true));
        Assert.Equal(["a", "hatchery", "room"], LineBreaks.Of("a hatcheryroom", 8, t => t.Length, wholeWords: false));
    }

    [Fact]
    public void A_letter_and_its_accent_are_not_parted() =>
        Assert.Equal(["Sen\u0303", "ora"], LineBreaks.Of("Sen\u0303ora", 4, t => t.Length, wholeWords: false));

    [Fact]
    public void What_is_cut_off_says_so() =>
        Assert.Equal(["one", "tw…"], LineBreaks.Cut(["one", "two", "three"], 2, 3, t => t.Length));

    [Fact]
    public void What_fits_is_not_cut() => Assert.Equal(["one", "two"], LineBreaks.Cut(["one", "two"], 2, 3, t => t.Length));

    [Theory]
    [InlineData("a4", 595, 842)]
    [InlineData("letter", 612, 792)]
    public void A_sheet_has_the_size_of_the_paper(string name, int width, int height)
    {
        var pdf = PrintedPdf.Read(PaperDocument.Write("Sheet", "en", Now, d => d.Page(PaperSize.Named(name)!, p => p.Text("x", new Box(10, 10, 50, 10), 12))));

        Assert.Equal((width, height), ((int)Math.Round(pdf.Pages[0].Width), (int)Math.Round(pdf.Pages[0].Height)));
    }

    [Theory]
    [InlineData("Escuela Niño Jesús")]
    [InlineData("Szkoła Łąkowa")]
    [InlineData("Școala Țepeș")]
    [InlineData("Школа у реки")]
    [InlineData("Σχολείο")]
    public void Letters_beyond_the_first_two_hundred_come_out_as_they_are(string name)
    {
        var pdf = PrintedPdf.Read(PaperDocument.Write(name, "en", Now, d => d.Page(PaperSize.A4, p => p.Text(name, new Box(10, 10, 150, 10), 12))));

        Assert.Equal((name, name), (pdf.Text, pdf.Title));
    }

    [Fact]
    public void A_long_text_becomes_smaller_and_stays_in_its_box()
    {
        var text = string.Join(' ', Enumerable.Repeat("Tatahouchee Consolidated Elementary", 12));
        var box = new Box(20, 20, 50, 15);

        var pdf = PrintedPdf.Read(PaperDocument.Write("x", "en", Now, d => d.Page(PaperSize.A4, p => p.Text(text, box, 14))));

        Assert.All(pdf.Pages[0].Words, w => Assert.True(
            w.Left >= 20 * 72 / 25.4 - 1 && w.Right <= 70 * 72 / 25.4 + 1 && w.Bottom <= 35 * 72 / 25.4 + 2, $"{w} runs out of its box"));
        Assert.EndsWith("…", pdf.Text, StringComparison.Ordinal);
    }

    /// <summary>
    /// Shapes by the joining types of The Unicode Standard, chapter 9.2 (table 9-3 and the rules R1 to R7; lam with alef is one shape), written
    /// by hand from the code charts FB50 and FE70.
    /// </summary>
    [Theory]
    [InlineData("سلام", "\uFEB3\uFEFC\u0645")] // Lam with alef, then a letter that nothing joins.
    [InlineData("العربية", "\u0627\uFEDF\uFECC\uFEAE\uFE91\uFEF4\uFE94")]
    [InlineData("مدرسة", "\uFEE3\uFEAA\u0631\uFEB3\uFE94")]
    [InlineData("پارک", "\uFB58\uFE8E\u0631\u06A9")] // Letters of Persian.
    [InlineData("مُهم", "\uFEE3\u064F\uFEEC\uFEE2")] // A mark over a letter joins through.
    [InlineData("ب 12 ب", "ب 12 ب")] // Nothing joins over a space.
    [InlineData("Río Azul", "Río Azul")]
    public void Arabic_letters_are_joined(string read, string shaped) => Assert.Equal(shaped, JoinedLetters.Of(read));

    [Fact]
    public void Joined_letters_stand_on_paper_from_the_right_and_none_is_a_box()
    {
        var pdf = PrintedPdf.Read(PaperDocument.Write("x", "en", Now, d => d.Page(PaperSize.A4, p => p.Text("مدرسة النهر 12", new Box(10, 10, 150, 10), 12))));

        Assert.Equal("12 \uFEAE\uFEEC\uFEE8\uFEDF\u0627 \uFE94\uFEB3\u0631\uFEAA\uFEE3", pdf.Text);
    }

    [Theory]
    [InlineData("https://tankside.example.test/t/23456789bcdf")]
    [InlineData("http://localhost:5080/t/zyxwvtsrqpnm")]
    [InlineData("https://a-rather-long-name-of-a-district.k12.example.test/hatchery/t/23456789bcdf")]
    public void A_drawn_code_leads_where_it_should(string address)
    {
        var pdf = PrintedPdf.Read(PaperDocument.Write("x", "en", Now, d => d.Page(PaperSize.A4, p => p.Qr(address, new Box(20, 20, 40, 40)))));

        Assert.Equal([address], pdf.Codes);
    }
}
