using System.IO.Compression;
using Tankside.Portal.Shell.Sheets;

namespace Tankside.Portal.Tests.Readings.Sheets;

public class WorkbookTests
{
    [Fact]
    public void Days_times_numbers_texts_and_ticks_come_as_people_read_them()
    {
        var row = Only("<row r=\"4\"><c r=\"A4\" s=\"1\"><v>46421</v></c><c r=\"B4\" s=\"3\"><v>0.34375</v></c><c r=\"C4\" s=\"2\"><v>46421.34375</v></c>"
            + "<c r=\"D4\"><v>51.799999999999997</v></c><c r=\"F4\" t=\"s\"><v>0</v></c><c r=\"G4\" t=\"b\"><v>1</v></c></row>", "<si><r><t>rich </t></r><r><t>text</t></r></si>");

        Assert.Equal(4, row.Number);
        Assert.Equal(["2027-02-03", "08:15:00", "2027-02-03 08:15:00", "51.8", "", "rich text", "yes"], row.Cells);
    }

    [Fact]
    public void A_formula_is_never_worked_out_its_saved_value_counts() => Assert.Equal(
        ["11", "#REF!", "(a formula without a saved value)", "=1+1"],
        Only("<row><c><f>5+6</f><v>11</v></c><c t=\"e\"><f>X</f><v>#REF!</v></c><c><f>WEBSERVICE(\"http://example.test\")</f></c><c t=\"inlineStr\"><is><t>=1+1</t></is></c></row>").Cells);

    [Fact]
    public void A_workbook_that_breaks_off_ends_in_a_row_that_says_so()
    {
        var whole = Workbooks.With("<row r=\"1\"><c><v>1</v></c></row><row r=\"2\"><c><v>2</v></row>");

        var rows = SheetFile.Open(whole).Rows().ToList();

        Assert.Equal("1", rows[0][0]);
        Assert.Contains("damaged", rows[^1].Trouble, StringComparison.Ordinal);
    }

    [Fact]
    public void A_workbook_of_far_too_many_parts_is_refused()
    {
        using var file = new MemoryStream();
        using (var packed = new ZipArchive(file, ZipArchiveMode.Create, leaveOpen: true))
        {
            for (var part = 0; part <= SheetLimits.MostParts; part++)
            {
                packed.CreateEntry($"xl/worksheets/sheet{part}.xml");
            }
        }

        Assert.Contains("unpacks", Assert.Throws<NoSheetException>(() => SheetFile.Open(file.ToArray())).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_workbook_that_unpacks_to_far_too_much_is_refused()
    {
        using var file = new MemoryStream();
        using (var packed = new ZipArchive(file, ZipArchiveMode.Create, leaveOpen: true))
        {
            using var part = packed.CreateEntry("xl/worksheets/sheet1.xml").Open();
            var zeroes = new byte[1 << 20];
            for (var megabyte = 0; megabyte <= SheetLimits.MostUnpackedBytes >> 20; megabyte++)
            {
                part.Write(zeroes);
            }
        }

        Assert.True(file.Length < SheetLimits.MostBytes);
        Assert.Contains("unpacks", Assert.Throws<NoSheetException>(() => SheetFile.Open(file.ToArray())).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void What_stands_far_to_the_right_is_not_passed_over() =>
        Assert.Contains("more than 60", Only("<row><c r=\"A1\"><v>1</v></c><c r=\"CZ1\"><v>2</v></c></row>").Trouble, StringComparison.Ordinal);

    [Fact]
    public void A_name_from_outside_is_not_fetched() =>
        Assert.Contains("damaged", Assert.Throws<NoSheetException>(() => SheetFile.Open(Workbooks.Packed(
            ("xl/workbook.xml", "<!DOCTYPE w [<!ENTITY x SYSTEM \"file:///etc/hostname\">]><workbook>&x;</workbook>"),
            ("xl/_rels/workbook.xml.rels", "<Relationships/>")))).Message, StringComparison.Ordinal);

    private static SheetRow Only(string row, string shared = "") => SheetFile.Open(Workbooks.With(row, shared)).Rows().Single();
}
