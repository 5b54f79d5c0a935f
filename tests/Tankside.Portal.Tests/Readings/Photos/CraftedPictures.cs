using System.Buffers.Binary;
using System.IO.Compression;
using System.Text;
using SkiaSharp;

namespace Tankside.Portal.Tests.Readings.Photos;

/// <summary>Pictures as cameras and people with bad intentions make them.</summary>
public static class CraftedPictures
{
    /// <summary>Left half red, right half blue.</summary>
    public static byte[] Plain(int width, int height, SKEncodedImageFormat format)
    {
        using var dots = new SKBitmap(width, height);
        using (var canvas = new SKCanvas(dots))
        {
            canvas.Clear(SKColors.Red);
            using var blue = new SKPaint { Color = SKColors.Blue };
            canvas.DrawRect(width / 2f, 0, width / 2f, height, blue);
        }

        using var image = SKImage.FromBitmap(dots);
        using var data = image.Encode(format, 95);
        return data.ToArray();
    }

    /// <summary>A JPEG as a phone held on its side writes it: turned by a quarter, with the place where it was taken and a comment.</summary>
    public static byte[] WithPlace(int width, int height)
    {
        var plain = Plain(width, height, SKEncodedImageFormat.Jpeg);
        return [0xFF, 0xD8, .. Segment(0xE1, [.. "Exif\0\0"u8, .. Exif()]), .. Segment(0xFE, Encoding.ASCII.GetBytes("taken by Ada in room 6")), .. plain[2..]];
    }

    /// <summary>A PNG of a few bytes that claims to unpack to more than anybody has room for.</summary>
    public static byte[] Bomb(int width, int height)
    {
        var head = new byte[13];
        BinaryPrimitives.WriteInt32BigEndian(head, width);
        BinaryPrimitives.WriteInt32BigEndian(head.AsSpan(4), height);
        (head[8], head[9]) = (8, 2);
        using var packed = new MemoryStream();
        using (var zip = new ZLibStream(packed, CompressionLevel.Optimal, leaveOpen: true))
        {
            zip.Write(new byte[1000]);
        }

        return [0x89, .. "PNG\r\n"u8, 0x1A, 0x0A, .. Chunk("IHDR", head), .. Chunk("IDAT", packed.ToArray()), .. Chunk("IEND", [])];
    }

    /// <summary>The markers that stand in a JPEG before its dots.</summary>
    public static IReadOnlyList<byte> Markers(byte[] jpeg)
    {
        var markers = new List<byte>();
        for (var at = 2; jpeg[at] == 0xFF && jpeg[at + 1] != 0xDA; at += 2 + BinaryPrimitives.ReadUInt16BigEndian(jpeg.AsSpan(at + 2)))
        {
            markers.Add(jpeg[at + 1]);
        }

        return markers;
    }

    private static byte[] Segment(byte marker, byte[] content) =>
        [0xFF, marker, (byte)((content.Length + 2) >> 8), (byte)(content.Length + 2), .. content];

    /// <summary>TIFF in big-endian order: turned a quarter to the right, and a GPS block with a latitude.</summary>
    private static byte[] Exif()
    {
        const int gps = 8 + 2 + (2 * 12) + 4, degrees = gps + 2 + (2 * 12) + 4;
        return
        [
            .. "MM\0*"u8, .. Number(8),
            0, 2, .. Entry(0x0112, 3, 1, 6 << 16), .. Entry(0x8825, 4, 1, gps), .. Number(0),
            0, 2, .. Entry(0x0001, 2, 2, 'N' << 24), .. Entry(0x0002, 5, 3, degrees), .. Number(0),
            .. Number(39), .. Number(1), .. Number(44), .. Number(1), .. Number(21), .. Number(1),
        ];
    }

    private static byte[] Entry(ushort tag, ushort type, int count, int value) =>
        [(byte)(tag >> 8), (byte)tag, (byte)(type >> 8), (byte)type, .. Number(count), .. Number(value)];

    private static byte[] Number(int value) => [(byte)(value >> 24), (byte)(value >> 16), (byte)(value >> 8), (byte)value];

    private static byte[] Chunk(string name, byte[] content)
    {
        byte[] named = [.. Encoding.ASCII.GetBytes(name), .. content];
        return [.. Number(content.Length), .. named, .. Number((int)Checksum(named))];
    }

    /// <summary>CRC-32 as PNG wants it.</summary>
    private static uint Checksum(byte[] bytes)
    {
        var sum = uint.MaxValue;
        foreach (var b in bytes)
        {
            sum ^= b;
            for (var bit = 0; bit < 8; bit++)
            {
                sum = (sum & 1) == 0 ? sum >> 1 : (sum >> 1) ^ 0xEDB88320;
            }
        }

        return ~sum;
    }
}
