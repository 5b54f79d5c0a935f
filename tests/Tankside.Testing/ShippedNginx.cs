using System.Diagnostics;
using System.Globalization;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using System.Text;

namespace Tankside.Testing;

/// <summary>nginx before two portals, with the file that is shipped: only its ports, its folders and its certificate are others.</summary>
public sealed class ShippedNginx : IDisposable
{
    private const string Name = "tankside.example.org";

    private readonly string folder = Directory.CreateTempSubdirectory("tankside-front-").FullName;
    private readonly Process process;

    /// <param name="first">Port of a portal on this machine.</param>
    /// <param name="second">Port of the other.</param>
    public ShippedNginx(int first, int second)
    {
        var (plain, port) = (Loopback.FreePort(), Loopback.FreePort());
        PlainAddress = new Uri(string.Create(CultureInfo.InvariantCulture, $"http://127.0.0.1:{plain}/"));
        Address = new Uri(string.Create(CultureInfo.InvariantCulture, $"https://127.0.0.1:{port}/"));
        Certificate = MakeCertificate();
        File.WriteAllText(Path.Combine(folder, "tankside.conf"), Shipped(first, second, plain, port));
        File.WriteAllText(Path.Combine(folder, "nginx.conf"), $$"""
            daemon off;
            {{(Environment.IsPrivilegedProcess ? "user root;" : "")}}
            worker_processes 1;
            pid {{folder}}/pid;
            error_log {{folder}}/error.log;
            events { worker_connections 1024; }
            http { include {{folder}}/tankside.conf; }
            """);
        process = Process.Start(
            Nginx.Program ?? throw new InvalidOperationException(Nginx.WhyUnavailable), ["-p", folder, "-c", Path.Combine(folder, "nginx.conf"), "-e", Path.Combine(folder, "error.log")]);
    }

    public Uri Address { get; }

    /// <summary>Without TLS.</summary>
    public Uri PlainAddress { get; }

    /// <summary>Hash of its certificate.</summary>
    public string Certificate { get; private set; }

    /// <summary>Where whoever renews the certificate puts what is asked for.</summary>
    public string WebRoot => Path.Combine(folder, "html");

    /// <summary>Puts another certificate in the place of the old one and has it read, as the hook after a renewal does.</summary>
    public void Renew()
    {
        Certificate = MakeCertificate();
        Signal("HUP");
    }

    public void Dispose()
    {
        Signal("QUIT");
        if (!process.WaitForExit(5000))
        {
            process.Kill(entireProcessTree: true);
            process.WaitForExit();
        }

        process.Dispose();
        Directory.Delete(folder, recursive: true);
    }

    private void Signal(string which)
    {
        using var kill = Process.Start("kill", [$"-{which}", process.Id.ToString(CultureInfo.InvariantCulture)]);
        kill.WaitForExit();
    }

    private string Shipped(int first, int second, int plain, int port)
    {
        var text = new StringBuilder(File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "deploy", "nginx.conf")));
        foreach (var (from, to) in new (string, FormattableString)[]
        {
            ("127.0.0.1:5081", $"127.0.0.1:{first}"),
            ("127.0.0.1:5082", $"127.0.0.1:{second}"),
            ("listen 80;", $"listen 127.0.0.1:{plain};"),
            ("listen 443 ssl", $"listen 127.0.0.1:{port} ssl"),
            ("/etc/ssl/tankside", $"{folder}"),
            ("/var/log/nginx", $"{folder}"),
            ("/var/www", $"{folder}"),
        })
        {
            text.Replace(from, FormattableString.Invariant(to));
        }

        return text.ToString();
    }

    /// <returns>Its hash.</returns>
    private string MakeCertificate()
    {
        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var request = new CertificateRequest($"CN={Name}", key, HashAlgorithmName.SHA256);
        using var certificate = request.CreateSelfSigned(DateTimeOffset.UtcNow.AddDays(-1), DateTimeOffset.UtcNow.AddDays(2));
        File.WriteAllText(Path.Combine(folder, "fullchain.pem"), certificate.ExportCertificatePem());
        File.WriteAllText(Path.Combine(folder, "key.pem"), key.ExportPkcs8PrivateKeyPem());
        return certificate.GetCertHashString();
    }
}
