using System.Buffers.Binary;
using System.IO.Compression;

namespace Tankside.Fuzz.Tests;

/// <summary>Packed files: a mutation of the bytes seldom comes past the packing, so that their parts are broken and packed again.</summary>
public static class Zips
{
    public static bool IsZip(byte[] bytes) => bytes is [(byte)'P', (byte)'K', 3, 4, ..];

    public static byte[] Mutated(Dice dice, byte[] zip, Target target)
    {
        var parts = Unpacked(zip);
        if (parts.Count == 0)
        {
            return Mutations.Of(dice, zip, [zip], target.Words, target.LongestInput);
        }

        var which = dice.Below(parts.Count);
        var (name, content) = parts[which];
        switch (dice.Below(12))
        {
            case 0:
                parts.RemoveAt(which);
                break;
            case 1:
                parts.Add((name, dice.Of(parts).Content)); // One name twice.
                break;
            case 2:
                parts[which] = (dice.Of(parts).Name, content);
                break;
            case 3:
                parts[which] = (name, [.. content, .. new byte[1 << dice.Between(10, 20)].Select(_ => (byte)' ')]); // Packs to nearly nothing.
                break;
            default:
                parts[which] = (name, Mutations.Of(dice, content, [.. parts.Select(p => p.Content)], target.Words, target.LongestInput));
                break;
        }

        var packed = Packed(parts);
        return dice.OneIn(5) ? WithLie(dice, packed) : packed;
    }

    public static byte[] Packed(IEnumerable<(string Name, byte[] Content)> parts)
    {
        using var file = new MemoryStream();
        using (var zip = new ZipArchive(file, ZipArchiveMode.Create, leaveOpen: true))
        {
            foreach (var (name, content) in parts)
            {
                // A time of its own would make each packing another.
                var entry = zip.CreateEntry(name, CompressionLevel.Fastest);
                entry.LastWriteTime = new DateTimeOffset(2027, 2, 1, 0, 0, 0, TimeSpan.Zero);
                using var part = entry.Open();
                part.Write(content);
            }
        }

        return file.ToArray();
    }

    private static List<(string Name, byte[] Content)> Unpacked(byte[] bytes)
    {
        var parts = new List<(string, byte[])>();
        try
        {
            using var zip = new ZipArchive(new MemoryStream(bytes));
            foreach (var entry in zip.Entries.Take(50))
            {
                var content = new byte[2 << 20];
                using var part = entry.Open();
                parts.Add((entry.FullName, content[..part.ReadAtLeast(content, content.Length, throwOnEndOfStream: false)]));
            }
        }
        catch (Exception e) when (e is InvalidDataException or IOException or NotSupportedException or ArgumentException)
        {
            // One that was broken before: what could be unpacked is taken.
        }

        return parts;
    }

    /// <summary>The list at the end says another size of a part than it has.</summary>
    private static byte[] WithLie(Dice dice, byte[] packed)
    {
        for (var at = 0; at + 46 < packed.Length; at++)
        {
            if (packed.AsSpan(at, 4).SequenceEqual("PK\u0001\u0002"u8) && dice.OneIn(2))
            {
                BinaryPrimitives.WriteUInt32LittleEndian(packed.AsSpan(at + (dice.OneIn(2) ? 20 : 24)), dice.Of<uint>([0, 1, 1000, int.MaxValue, uint.MaxValue]));
            }
        }

        return packed;
    }
}
