using Tankside.Process.Tests;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Load.Drill;

/// <summary>Two portals as processes and nginx before them. One at a time may be down.</summary>
public sealed class Nodes : IDisposable
{
    private readonly int[] ports = [Loopback.FreePort(), Loopback.FreePort()];
    private readonly ServedPortal?[] portals = new ServedPortal?[2];
    private readonly Installation installation;
    private readonly ShippedNginx front;

    public Nodes(DatabaseChoice database)
    {
        front = new ShippedNginx(ports[0], ports[1]);
        installation = Installation.On(database, "Production");
        installation.Settings["Tankside__ReadFrom"] = "Replica";
        installation.Settings["Tankside__PublicUrl"] = Address.ToString();
        installation.Settings["Serilog__MinimumLevel__Default"] = "Warning";
        foreach (var (key, value) in LoadPlace.Unlimited)
        {
            installation.Settings[key.Replace(":", "__", StringComparison.Ordinal)] = value;
        }
    }

    /// <summary>Where visitors come in.</summary>
    public Uri Address => front.Address;

    public string Certificate => front.Certificate;

    public async Task StartAsync()
    {
        for (var i = 0; i < ports.Length; i++)
        {
            portals[i] = await installation.ServeAsync(ports[i]);
        }
    }

    /// <param name="node">1 or 2, as the front's cookie counts.</param>
    public async Task KillAsync(int node)
    {
        await portals[node - 1]!.KillAsync();
        Forget(node);
    }

    public async Task StopAsync(int node)
    {
        await portals[node - 1]!.StopAsync();
        Forget(node);
    }

    public async Task StartAgainAsync()
    {
        var down = Array.IndexOf(portals, null);
        portals[down] = await installation.ServeAsync(ports[down]);
    }

    public void Dispose()
    {
        front.Dispose();
        foreach (var portal in portals)
        {
            portal?.Dispose();
        }

        installation.Dispose();
    }

    private void Forget(int node)
    {
        portals[node - 1]!.Dispose();
        portals[node - 1] = null;
    }
}
