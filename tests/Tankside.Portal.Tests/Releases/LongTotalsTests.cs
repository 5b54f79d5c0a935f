using System.Collections;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Releases.Files;

namespace Tankside.Portal.Tests.Releases;

/// <summary>Fifty thousand tanks: rows go out as they are made, and somebody who waits is told how far it is.</summary>
public class LongTotalsTests
{
    private const int Many = 50_000;

    [Fact]
    public async Task The_first_bytes_of_a_long_file_leave_before_its_last_rows_are_made()
    {
        var tanks = new MadeOnDemand();
        var file = new Watched(() => tanks.Made);
        var told = 0;

        await TotalsCsv.WriteAsync(new SeasonTotals("P", "S", tanks), file, rows => told = rows, CancellationToken.None);

        Assert.Equal((Many, Many), (tanks.Made, told));
        Assert.InRange(file.MadeAtFirstWrite, 1, 2000);
        Assert.True(file.Largest < 100_000, $"{file.Largest} bytes went out at once");
    }

    [Fact]
    public async Task A_spreadsheet_of_fifty_thousand_rows_is_whole_and_leaves_in_pieces()
    {
        var tanks = new MadeOnDemand();
        var file = new Watched(() => tanks.Made);
        var told = new List<int>();

        await TotalsXlsx.WriteAsync(new SeasonTotals("P", "S", tanks), file, told.Add, CancellationToken.None);

        Assert.Equal(Enumerable.Range(1, Many), told);
        Assert.True(file.Largest < 1_000_000, $"{file.Largest} bytes went out at once");
        Assert.InRange(file.All, 1_000_000, 50_000_000);
    }

    /// <summary>Rows that exist only while they are looked at.</summary>
    private sealed class MadeOnDemand : IReadOnlyList<TankTotals>
    {
        public int Made { get; private set; }

        public int Count => Many;

        public TankTotals this[int index]
        {
            get
            {
                Made = Math.Max(Made, index + 1);
                return new TankTotals($"School {index % 900}", "Room", $"T{index:00000}", $"L{index % 7}", "rainbow-trout", new TankBalance { Received = 100, Released = index % 100, Unaccounted = 100 - (index % 100) }, null, null, null, null);
            }
        }

        public IEnumerator<TankTotals> GetEnumerator() => Enumerable.Range(0, Many).Select(i => this[i]).GetEnumerator();

        IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();
    }

    /// <summary>Takes bytes and keeps none, only how they came.</summary>
    private sealed class Watched(Func<int> made) : MemoryStream
    {
        public int MadeAtFirstWrite { get; private set; }

        public int Largest { get; private set; }

        public long All { get; private set; }

        public override bool CanSeek => false;

        public override void Write(ReadOnlySpan<byte> buffer)
        {
            MadeAtFirstWrite = All == 0 ? made() : MadeAtFirstWrite;
            Largest = Math.Max(Largest, buffer.Length);
            All += buffer.Length;
        }

        public override void Write(byte[] buffer, int offset, int count) => Write(buffer.AsSpan(offset, count));

        public override ValueTask WriteAsync(ReadOnlyMemory<byte> buffer, CancellationToken cancellationToken = default)
        {
            Write(buffer.Span);
            return ValueTask.CompletedTask;
        }

        public override Task WriteAsync(byte[] buffer, int offset, int count, CancellationToken cancellationToken)
        {
            Write(buffer.AsSpan(offset, count));
            return Task.CompletedTask;
        }
    }
}
