using System.IO.Compression;
using System.Xml;

namespace Tankside.Portal.Shell.Sheets;

/// <summary>
/// Opens an .xlsx workbook. Of its parts only the small ones (names, shared texts, formats) are held; the rows are streamed out of the
/// packed file. A formula is never worked out: what counts is the value that was saved with it.
/// </summary>
internal static class WorkbookSheet
{
    private const string Relations = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";

    /// <exception cref="NoSheetException">It is no workbook, or one that unpacks to more than any sheet of readings would.</exception>
    public static SheetFile Open(byte[] content, int? leaf)
    {
        try
        {
            using var packed = new ZipArchive(new MemoryStream(content, writable: false));
            if (packed.Entries.Count > SheetLimits.MostParts || packed.Entries.Sum(e => e.Length) > SheetLimits.MostUnpackedBytes)
            {
                throw new NoSheetException("This workbook unpacks to more than any sheet of readings needs. Copy the readings into a new workbook and send that.");
            }

            var (leaves, from1904) = Leaves(packed);
            if (leaves.Count == 0)
            {
                throw new NoSheetException("There is no sheet with cells in this workbook.");
            }

            var chosen = leaf is { } l && l >= 0 && l < leaves.Count ? l : FirstWithCells(packed, leaves);
            var texts = SharedTexts.Read(packed);
            var formats = CellFormats.Read(packed, from1904);
            return new SheetFile(
                say => (leaves.Count == 1 ? say["Read as an Excel workbook."] : say.Of("Read as an Excel workbook with {0} sheets; the one taken is “{1}”.", leaves.Count, leaves[chosen].Name))
                    + " " + say["Of a formula the value that was saved with it is taken."],
                [.. leaves.Select(s => s.Name)],
                () => Rows(content, leaves[chosen].Part, texts, formats));
        }
        catch (Exception e) when (IsBroken(e))
        {
            throw new NoSheetException("This workbook is damaged and cannot be opened. Open it in your spreadsheet program, save it anew and send it again.");
        }
    }

    internal static bool IsBroken(Exception e) =>
        e is InvalidDataException or XmlException or EndOfStreamException or IOException or NotSupportedException or FormatException or OverflowException or ArgumentException;

    internal static XmlReader Xml(Stream part) => XmlReader.Create(new CountedStream(part, SheetLimits.MostUnpackedBytes), new XmlReaderSettings
    {
        DtdProcessing = DtdProcessing.Prohibit,
        XmlResolver = null,
        IgnoreComments = true,
        IgnoreProcessingInstructions = true,
        MaxCharactersInDocument = SheetLimits.MostUnpackedBytes,
    });

    /// <summary>Goes on to the next node. What nests deeper than any sheet is broken: each level that is still open costs memory.</summary>
    internal static bool Step(this XmlReader xml) =>
        xml.Read() && (xml.Depth <= SheetLimits.MostDepth ? true : throw new InvalidDataException("nested deeper than any sheet"));

    private static IEnumerable<SheetRow> Rows(byte[] content, string part, IReadOnlyList<string> texts, CellFormats formats)
    {
        using var packed = new ZipArchive(new MemoryStream(content, writable: false));
        using var stream = packed.GetEntry(part)!.Open();
        foreach (var row in WorkbookRows.Read(stream, texts, formats))
        {
            yield return row;
        }
    }

    private static int FirstWithCells(ZipArchive packed, List<(string Name, string Part)> leaves)
    {
        foreach (var (index, leaf) in leaves.Index())
        {
            using var stream = packed.GetEntry(leaf.Part)!.Open();
            using var xml = Xml(stream);
            while (xml.Step())
            {
                if (xml is { NodeType: XmlNodeType.Element, LocalName: "v" })
                {
                    return index;
                }
            }
        }

        return 0;
    }

    /// <summary>The sheets that a person sees, in order, with the parts that hold them, and how the workbook counts its days.</summary>
    private static (List<(string Name, string Part)> Leaves, bool From1904) Leaves(ZipArchive packed)
    {
        var parts = Targets(packed);
        var leaves = new List<(string, string)>();
        var from1904 = false;
        using var stream = packed.GetEntry("xl/workbook.xml")?.Open() ?? throw new InvalidDataException("no workbook");
        using var xml = Xml(stream);
        while (xml.Step())
        {
            if (xml is { NodeType: XmlNodeType.Element, LocalName: "workbookPr" })
            {
                from1904 = xml.GetAttribute("date1904") is "1" or "true";
            }
            else if (leaves.Count < SheetLimits.MostLeaves && xml is { NodeType: XmlNodeType.Element, LocalName: "sheet" } && xml.GetAttribute("state") is null or "visible"
                && xml.GetAttribute("id", Relations) is { } id && parts.TryGetValue(id, out var part) && packed.GetEntry(part) is not null
                && leaves.TrueForAll(l => l.Item2 != part))
            {
                leaves.Add((xml.GetAttribute("name") ?? $"Sheet {leaves.Count + 1}", part));
            }
        }

        return (leaves, from1904);
    }

    private static Dictionary<string, string> Targets(ZipArchive packed)
    {
        var parts = new Dictionary<string, string>(StringComparer.Ordinal);
        using var stream = packed.GetEntry("xl/_rels/workbook.xml.rels")?.Open() ?? throw new InvalidDataException("no relations");
        using var xml = Xml(stream);
        while (xml.Step())
        {
            if (xml is { NodeType: XmlNodeType.Element, LocalName: "Relationship" } && xml.GetAttribute("Id") is { } id && xml.GetAttribute("Target") is { } target
                && xml.GetAttribute("Type")?.EndsWith("/worksheet", StringComparison.Ordinal) == true)
            {
                parts[id] = target.StartsWith('/') ? target[1..] : $"xl/{target}";
            }
        }

        return parts;
    }

    /// <summary>Ends a part that unpacks to more than it may, whatever the file says of its size.</summary>
    private sealed class CountedStream(Stream inner, long most) : Stream
    {
        private long left = most;

        public override bool CanRead => true;

        public override bool CanSeek => false;

        public override bool CanWrite => false;

        public override long Length => throw new NotSupportedException();

        public override long Position
        {
            get => throw new NotSupportedException();
            set => throw new NotSupportedException();
        }

        public override int Read(byte[] buffer, int offset, int count)
        {
            var read = inner.Read(buffer, offset, count);
            left -= read;
            return left >= 0 ? read : throw new InvalidDataException("larger than it may be");
        }

        public override void Flush()
        {
        }

        public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

        public override void SetLength(long value) => throw new NotSupportedException();

        public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();
    }
}
