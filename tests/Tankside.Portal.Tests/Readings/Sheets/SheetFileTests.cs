using System.Text;
using Tankside.Portal.Shell;
using Tankside.Portal.Shell.Sheets;

namespace Tankside.Portal.Tests.Readings.Sheets;

public class SheetFileTests
{
    [Theory]
    [InlineData("a,b\n1,2", ',')]
    [InlineData("a;b;c\n1;2,5;3\n2;3,5;4", ';')]
    [InlineData("a\tb\n1,5\t2\n", '\t')]
    [InlineData("\"Temp, °F\";Note\n52;\"warm, I think\"", ';')]
    [InlineData("one column only\n52", ',')]
    public void The_separator_is_the_sign_that_cuts_all_lines_alike(string text, char separator) =>
        Assert.Equal(separator, TextRows.GuessSeparator(new StringReader(text)));

    [Fact]
    public void A_quoted_cell_may_hold_separators_quotation_marks_and_lines() =>
        Assert.Equal(["A001", "warm, \"very\"\nI think", "5\" of gravel"], Rows("A001,\"warm, \"\"very\"\"\nI think\",5\" of gravel\n")[0].Cells);

    [Fact]
    public void A_quotation_that_nobody_closes_spoils_its_own_row_only()
    {
        var rows = Rows("Tank,Note\nA001,\"oh\nA002,fine\nA003,fine\n");

        Assert.Equal([null, "A quotation mark is opened in this row and never closed.", null, null], rows.Select(r => r.Trouble));
        Assert.Equal(["Tank", "A001", "A002", "A003"], rows.Select(r => r[0]));
    }

    [Fact]
    public void Two_rows_with_an_open_quotation_swallow_nothing_between_them() =>
        Assert.Equal(["a", "b", "c", "d"], Rows("a,\"x\nb,1\nc,\"y\nd,2").Select(r => r[0]));

    [Theory]
    [InlineData("utf-8")]
    [InlineData("utf-16")]
    [InlineData("utf-16BE")]
    public void A_byte_order_mark_names_the_encoding(string name)
    {
        var encoding = Encoding.GetEncoding(name);

        Assert.Equal("sí °F", SheetFile.Open([.. encoding.GetPreamble(), .. encoding.GetBytes("sí °F,1\n")]).Rows().Single()[0]);
    }

    [Fact]
    public void What_is_not_utf_8_is_read_as_old_Windows_text_and_says_so()
    {
        var file = SheetFile.Open([(byte)'s', 0xED, (byte)',', 0xB0, (byte)'F']);

        Assert.Equal(["sí", "°F"], file.Rows().Single().Cells);
        Assert.Contains("Windows-1252", file.HowRead, StringComparison.Ordinal);
    }

    [Fact]
    public void Bytes_that_are_no_text_are_reported_with_their_row()
    {
        var rows = SheetFile.Open([0xEF, 0xBB, 0xBF, .. "Tank\n"u8, 0xFF, 0xFE, .. "\nA001\n"u8]).Rows().ToList();

        Assert.Equal((2, true), (rows[1].Number, rows[1].Trouble!.Contains("could not be read", StringComparison.Ordinal)));
        Assert.Null(rows[2].Trouble);
    }

    [Theory]
    [InlineData("a,\"x\nb", "una comilla")]
    [InlineData("\uFFFD,b", "UTF-8?")]
    public void What_is_wrong_with_a_row_is_told_in_the_readers_language(string content, string word) =>
        Assert.Contains(word, RowTroubles.To(Rows(content).First(r => r.Trouble is not null).Trouble!, Say.InSpanish), StringComparison.Ordinal);

    [Fact]
    public void A_row_that_is_too_long_or_too_wide_is_told_in_the_readers_language() => Assert.Equal(
        ["Esta fila tiene más de 64,000 signos.", "Una celda de esta fila tiene más de 4,000 signos.", "Esta fila tiene más de 60 celdas."],
        new[] { RowTroubles.RowTooLong(), RowTroubles.CellTooLong(), RowTroubles.TooManyCells() }.Select(t => RowTroubles.To(t, Say.InSpanish)));

    [Theory]
    [InlineData("", "empty")]
    [InlineData("%PDF-1.7", "PDF")]
    [InlineData("PK but no archive", "damaged")]
    [InlineData("\0\0\0picture", "not a sheet")]
    public void What_is_no_sheet_is_refused_in_words(string content, string word) => Assert.Contains(
        word, Assert.Throws<NoSheetException>(() => SheetFile.Open(Encoding.Latin1.GetBytes(content))).Message, StringComparison.Ordinal);

    [Fact]
    public void An_old_workbook_and_one_with_a_password_are_told_how_to_come() =>
        Assert.Contains(".xlsx", Assert.Throws<NoSheetException>(() => SheetFile.Open([0xD0, 0xCF, 0x11, 0xE0, 0])).Message, StringComparison.Ordinal);

    [Fact]
    public void Too_long_a_row_and_too_long_a_cell_are_refused_rows()
    {
        var rows = Rows($"a\n{new string('x', SheetLimits.LongestRow + 1)}\n{new string('y', SheetLimits.LongestCell + 1)}\nb\n");

        Assert.Equal([false, true, true, false], rows.Select(r => r.Trouble is not null));
    }

    private static List<SheetRow> Rows(string text) => [.. TextRows.Read(new StringReader(text), ',')];
}
