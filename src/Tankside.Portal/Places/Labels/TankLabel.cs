using Tankside.Hatchery.Places;

namespace Tankside.Portal.Places.Labels;

/// <summary>What stands on the label of one tank.</summary>
/// <param name="Code">The tank's own code.</param>
/// <param name="RoomCode">The secret that opens its form.</param>
/// <param name="PublicUrl">Where people reach the portal.</param>
public sealed record TankLabel(string Code, string Room, string School, string RoomCode, Uri PublicUrl)
{
    /// <summary>Where the QR code leads.</summary>
    public Uri Address => new(PublicUrl, $"t/{RoomCode}");

    /// <summary>The address for who types it, up to the code.</summary>
    public string TypedStart => $"{PublicUrl.Authority}{PublicUrl.AbsolutePath}t/";

    /// <summary>The end of the address for who types it.</summary>
    public string TypedCode => RoomCodes.Grouped(RoomCode);
}
