using System.Globalization;
using System.Text;
using Tankside.Hatchery.People;
using Tankside.Portal.Shell.Sheets;
using Tankside.Storage;

namespace Tankside.Portal.Tests.Readings.Sheets;

/// <summary>
/// A hundred thousand rows. That they are streamed is measured where it can be measured without a clock or a guess at the memory: how far the
/// source has been read when a row is handed out.
/// </summary>
public class LongSheetTests
{
    private const int Rows = 100_000;

    [Fact]
    public void Text_is_read_no_further_than_the_row_in_hand_needs()
    {
        var source = new Endless(i => FormattableString.Invariant($"A001,2027-02-03,{i},52.5,fine\n"), Rows);
        using var text = new StreamReader(source, Encoding.UTF8, detectEncodingFromByteOrderMarks: false, bufferSize: 4096);

        AssertStreamed(source, TextRows.Read(text, ','));
    }

    [Fact]
    public void A_workbook_is_read_no_further_than_the_row_in_hand_needs()
    {
        var source = new Endless(i => FormattableString.Invariant($"<row r=\"{i + 1}\"><c r=\"A{i + 1}\" t=\"s\"><v>0</v></c><c r=\"B{i + 1}\"><v>52.5</v></c></row>"), Rows, "<sheetData>", "</sheetData>");

        AssertStreamed(source, WorkbookRows.Read(source, ["A001"], new CellFormats()));
    }

    [Fact]
    public async Task A_hundred_thousand_rows_are_all_accounted_for()
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        var client = await host.ClientAs(Role.Coordinator, world.One);
        var sheet = new StringBuilder("Tank,Date,Time,Water °F\n");
        for (var row = 0; row < Rows; row++)
        {
            var at = new DateTime(2026, 11, 1, 0, 0, 0, DateTimeKind.Unspecified).AddMinutes(row);
            var water = (row % 1000) switch { 7 => "5.2", 8 => "512", 9 => "", _ => "52" };
            sheet.Append(CultureInfo.InvariantCulture, $"{(row % 1000 == 6 ? "Z999" : "A001")},{at:yyyy-MM-dd},{at:HH:mm},{water}\n");
        }

        var (_, import) = await host.ImportAsync(client, sheet.ToString());

        // 5.2 is asked; 512 and a tank that is none are refused; without a temperature nothing was seen.
        Assert.Equal((99_600, 100, 0, 200, 100), import.Counts());
    }

    private static void AssertStreamed(Endless source, IEnumerable<SheetRow> rows)
    {
        // What a decoder, a reader and a line take ahead; a whole sheet is a hundred times as much.
        const int Ahead = 64 * 1024;
        var (seen, furthest) = (0, 0L);
        foreach (var row in rows)
        {
            Assert.Null(row.Trouble);
            Assert.Equal(++seen, row.Number);
            furthest = Math.Max(furthest, source.Given - source.UpTo(seen));
        }

        Assert.Equal(Rows, seen);
        Assert.InRange(furthest, 0, Ahead);
    }

    /// <summary>A stream that makes its rows only when they are asked for, and knows how much it has given.</summary>
    private sealed class Endless(Func<int, string> row, int rows, string first = "", string last = "") : Stream
    {
        private readonly List<long> ends = [];
        private byte[] piece = Encoding.UTF8.GetBytes(first);
        private int at, made;
        private long length = first.Length;
        private bool ended;

        public long Given { get; private set; }

        /// <summary>Bytes up to the end of a row.</summary>
        public long UpTo(int number) => ends[number - 1];

        public override int Read(byte[] buffer, int offset, int count)
        {
            while (at == piece.Length)
            {
                if (ended)
                {
                    return 0;
                }

                ended = made == rows;
                var next = ended ? last : row(made++);
                length += next.Length;
                ends.Add(length);
                (piece, at) = (Encoding.UTF8.GetBytes(next), 0);
            }

            var taken = Math.Min(count, piece.Length - at);
            piece.AsSpan(at, taken).CopyTo(buffer.AsSpan(offset));
            at += taken;
            Given += taken;
            return taken;
        }

        public override bool CanRead => true;

        public override bool CanSeek => false;

        public override bool CanWrite => false;

        public override long Length => throw new NotSupportedException();

        public override long Position
        {
            get => throw new NotSupportedException();
            set => throw new NotSupportedException();
        }

        public override void Flush()
        {
        }

        public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

        public override void SetLength(long value) => throw new NotSupportedException();

        public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();
    }
}
