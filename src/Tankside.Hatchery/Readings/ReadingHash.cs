using System.Security.Cryptography;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace Tankside.Hatchery.Readings;

/// <summary>Fingerprint of a reading's parsed content: equal for "9.40" and "9.4", different for any other value.</summary>
public static partial class ReadingHash
{
    public static string Of(DateTime at, Observation seen, Guid? corrects)
    {
        var content = JsonSerializer.SerializeToUtf8Bytes(new Content(at.Ticks, seen, corrects), Shape.Default.Content);
        return Convert.ToHexStringLower(SHA256.HashData(content).AsSpan(0, 16));
    }

    internal sealed record Content(long At, Observation Seen, Guid? Corrects);

    /// <summary>Written out when the program is built: every reading of a batch is hashed.</summary>
    [JsonSerializable(typeof(Content))]
    private sealed partial class Shape : JsonSerializerContext;
}
