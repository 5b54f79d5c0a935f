using System.IO.Compression;
using System.Text;
using System.Xml;

namespace Tankside.Portal.Shell.Sheets;

/// <summary>The texts that a workbook keeps once and refers to from its cells.</summary>
internal static class SharedTexts
{
    public static IReadOnlyList<string> Read(ZipArchive packed)
    {
        if (packed.GetEntry("xl/sharedStrings.xml") is not { } entry)
        {
            return [];
        }

        using var stream = entry.Open();
        using var xml = WorkbookSheet.Xml(stream);
        var texts = new List<string>();
        var (all, one, sounds) = (0L, new StringBuilder(), false);
        while (xml.Step())
        {
            if (xml is { NodeType: XmlNodeType.Element, LocalName: "si" })
            {
                one.Clear();
                if (xml.IsEmptyElement)
                {
                    texts.Add("");
                }
            }
            else if (xml is { NodeType: XmlNodeType.EndElement, LocalName: "si" })
            {
                texts.Add(one.ToString());
                all += one.Length + 8;
                if (all > SheetLimits.MostSharedText)
                {
                    throw new NoSheetException("This workbook holds more text than any sheet of readings needs. Copy the readings into a new workbook and send that.");
                }
            }
            else if (xml is { LocalName: "rPh" })
            {
                sounds = xml is { NodeType: XmlNodeType.Element, IsEmptyElement: false }; // How a text is pronounced; not the text.
            }
            else if (!sounds)
            {
                WorkbookRows.AppendText(xml, one);
            }
        }

        return texts;
    }
}
