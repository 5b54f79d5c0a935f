using System.Net;
using System.Net.Sockets;

namespace Tankside.Portal.Shell;

/// <summary>By what tries and calls of somebody unknown are counted.</summary>
public static class Visitor
{
    public static string AddressOf(HttpContext context) => Counted(context.Connection.RemoteIpAddress);

    /// <summary>A whole /64 of IPv6 counts as one: whoever has one address of it has all of them, and would begin anew with each.</summary>
    public static string Counted(IPAddress? address) => address switch
    {
        null => "unknown",
        { IsIPv4MappedToIPv6: true } => address.MapToIPv4().ToString(),
        { AddressFamily: AddressFamily.InterNetworkV6 } => $"{new IPAddress([.. address.GetAddressBytes()[..8], .. new byte[8]])}/64",
        _ => address.ToString(),
    };
}
