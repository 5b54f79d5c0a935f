using System.Buffers.Binary;
using System.Security.Cryptography;
using System.Text;

namespace Tankside.Hatchery.Readings;

/// <summary>
/// The sender's id of a reading from a sheet, made from what the row says: the same row, sent again in whatever sheet, is the same reading.
/// </summary>
public static class SheetReadingId
{
    /// <param name="content">Hash of the reading's content, with its time.</param>
    /// <param name="ordinal">0 for the first row of a sheet that says this, 1 for the next that says exactly the same, and so on.</param>
    /// <param name="generation">How often an import that held it was taken back before.</param>
    public static Guid Of(Guid tank, string content, int ordinal, int generation)
    {
        Span<byte> told = stackalloc byte[16 + 64 + 8];
        tank.TryWriteBytes(told, bigEndian: true, out _);
        Encoding.ASCII.GetBytes(content, told[16..]);
        BinaryPrimitives.WriteInt32BigEndian(told[80..], ordinal);
        BinaryPrimitives.WriteInt32BigEndian(told[84..], generation);
        var id = SHA256.HashData(told).AsSpan(0, 16);

        // A UUID of version 8 (RFC 9562): made by a rule of ours, and so never mistaken for a random one.
        id[6] = (byte)((id[6] & 0x0F) | 0x80);
        id[8] = (byte)((id[8] & 0x3F) | 0x80);
        return new Guid(id, bigEndian: true);
    }
}
