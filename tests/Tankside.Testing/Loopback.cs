using System.Net;
using System.Net.Sockets;
using System.Security.Cryptography;

namespace Tankside.Testing;

/// <summary>The network that ends in this machine.</summary>
public static class Loopback
{
    /// <summary>Below the ports that the system hands out by itself, so that nobody is given it before whoever asked has started.</summary>
    public static int FreePort()
    {
        for (; ; )
        {
            try
            {
                using var listener = new TcpListener(IPAddress.Loopback, RandomNumberGenerator.GetInt32(20_000, 32_000));
                listener.Start();
                return ((IPEndPoint)listener.LocalEndpoint).Port;
            }
            catch (SocketException)
            {
                // Somebody else has it.
            }
        }
    }
}
