using System.Globalization;
using System.IO.Compression;
using System.Xml;

namespace Tankside.Portal.Shell.Sheets;

/// <summary>Which of a workbook's formats show a number as a day or a time, and how its days are counted.</summary>
public sealed class CellFormats
{
    private readonly HashSet<int> dateStyles = [];
    private readonly bool from1904;

    public CellFormats(bool from1904 = false, params ReadOnlySpan<int> dateStyles)
    {
        this.from1904 = from1904;
        foreach (var style in dateStyles)
        {
            this.dateStyles.Add(style);
        }
    }

    /// <summary>A number as its format shows it: days and times as ISO 8601 writes them, everything else as it is.</summary>
    public string Show(string number, int style)
    {
        if (!double.TryParse(number, NumberStyles.Float, CultureInfo.InvariantCulture, out var serial))
        {
            return number;
        }

        if (!dateStyles.Contains(style) || !(serial is >= 0 and < 2_900_000))
        {
            return serial.ToString("G15", CultureInfo.InvariantCulture); // 51.8 is saved as 51.799999999999997.
        }

        // To the second: a time of day is a fraction that no double holds exactly.
        var seconds = Math.Round(serial * 86_400);
        var clock = TimeSpan.FromSeconds(seconds % 86_400).ToString(@"hh\:mm\:ss", CultureInfo.InvariantCulture);
        if (seconds < 86_400)
        {
            return clock;
        }

        var day = SerialDay((int)Math.Floor(seconds / 86_400), from1904).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
        return seconds % 86_400 == 0 ? day : $"{day} {clock}";
    }

    /// <summary>Day 1 is 1 January 1900, and the 29 February of that year that never was is counted along; or day 0 is 1 January 1904.</summary>
    public static DateOnly SerialDay(int serial, bool from1904 = false) => from1904
        ? new DateOnly(1904, 1, 1).AddDays(serial)
        : new DateOnly(1899, 12, serial < 60 ? 31 : 30).AddDays(serial);

    internal static CellFormats Read(ZipArchive packed, bool from1904)
    {
        var formats = new CellFormats(from1904);
        if (packed.GetEntry("xl/styles.xml") is not { } entry)
        {
            return formats;
        }

        using var stream = entry.Open();
        using var xml = WorkbookSheet.Xml(stream);
        var dates = new HashSet<int>([.. Enumerable.Range(14, 9), .. Enumerable.Range(27, 10), .. Enumerable.Range(45, 3), .. Enumerable.Range(50, 9)]);
        var (within, style) = (false, 0);
        while (xml.Step())
        {
            switch (xml)
            {
                case { NodeType: XmlNodeType.Element, LocalName: "numFmt" } when int.TryParse(xml.GetAttribute("numFmtId"), CultureInfo.InvariantCulture, out var id):
                    if (ShowsDate(xml.GetAttribute("formatCode") ?? ""))
                    {
                        dates.Add(id);
                    }

                    break;
                case { LocalName: "cellXfs" }:
                    within = xml.NodeType == XmlNodeType.Element && !xml.IsEmptyElement;
                    break;
                case { NodeType: XmlNodeType.Element, LocalName: "xf" } when within:
                    if (int.TryParse(xml.GetAttribute("numFmtId"), CultureInfo.InvariantCulture, out var format) && dates.Contains(format))
                    {
                        formats.dateStyles.Add(style);
                    }

                    style++;
                    break;
                default:
                    break;
            }
        }

        return formats;
    }

    /// <summary>True when a format code holds a letter of day, month, year or hour outside of quotation and brackets.</summary>
    private static bool ShowsDate(string code)
    {
        var (quoted, bracket) = (false, false);
        for (var i = 0; i < code.Length; i++)
        {
            switch (code[i])
            {
                case '\\' or '_' or '*':
                    i++;
                    break;
                case '"':
                    quoted = !quoted;
                    break;
                case '[' when !quoted:
                    bracket = !(i + 1 < code.Length && code[i + 1] is 'h' or 'm' or 's' or 'H' or 'M' or 'S');
                    break;
                case ']':
                    bracket = false;
                    break;
                case 'd' or 'D' or 'm' or 'M' or 'y' or 'Y' or 'h' or 'H' when !quoted && !bracket:
                    return true;
                default:
                    break;
            }
        }

        return false;
    }
}
