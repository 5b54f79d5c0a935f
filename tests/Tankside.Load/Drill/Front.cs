using System.Globalization;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using System.Text;
using Tankside.Process.Tests;

namespace Tankside.Load.Drill;

/// <summary>nginx before two portals, with the file that is shipped: only its ports, its certificate and its log are others.</summary>
public sealed class Front : IDisposable
{
    private const string Executable = "/usr/sbin/nginx";

    private readonly string folder = Directory.CreateTempSubdirectory("tankside-front-").FullName;
    private readonly System.Diagnostics.Process process;

    public Front(int first, int second)
    {
        var port = Installation.FreePort();
        Address = new Uri(string.Create(CultureInfo.InvariantCulture, $"https://127.0.0.1:{port}/"));
        Certificate = MakeCertificate();
        File.WriteAllText(Path.Combine(folder, "tankside.conf"), Shipped(first, second, port));
        File.WriteAllText(Path.Combine(folder, "nginx.conf"), $$"""
            daemon off;
            {{(Environment.IsPrivilegedProcess ? "user root;" : "")}}
            worker_processes 1;
            pid {{folder}}/pid;
            error_log {{folder}}/error.log;
            events { worker_connections 1024; }
            http { include {{folder}}/tankside.conf; }
            """);
        process = System.Diagnostics.Process.Start(Executable, ["-p", folder, "-c", Path.Combine(folder, "nginx.conf"), "-e", Path.Combine(folder, "error.log")]);
    }

    public static string? WhyUnavailable => File.Exists(Executable) ? null : "No nginx found. Install it (Debian: apt-get install nginx-light).";

    public Uri Address { get; }

    /// <summary>Hash of its certificate.</summary>
    public string Certificate { get; }

    public void Dispose()
    {
        using (var stop = System.Diagnostics.Process.Start("kill", ["-QUIT", process.Id.ToString(CultureInfo.InvariantCulture)]))
        {
            stop.WaitForExit();
        }

        if (!process.WaitForExit(5000))
        {
            process.Kill(entireProcessTree: true);
            process.WaitForExit();
        }

        process.Dispose();
        Directory.Delete(folder, recursive: true);
    }

    private string Shipped(int first, int second, int port)
    {
        var text = new StringBuilder(File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "deploy", "nginx.conf")));
        foreach (var (from, to) in new (string, FormattableString)[]
        {
            ("127.0.0.1:5081", $"127.0.0.1:{first}"),
            ("127.0.0.1:5082", $"127.0.0.1:{second}"),
            ("listen 80;", $"listen 127.0.0.1:{Installation.FreePort()};"),
            ("listen 443 ssl", $"listen 127.0.0.1:{port} ssl"),
            ("/etc/ssl/tankside", $"{folder}"),
            ("/var/log/nginx", $"{folder}"),
        })
        {
            text.Replace(from, FormattableString.Invariant(to));
        }

        return text.ToString();
    }

    private string MakeCertificate()
    {
        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var request = new CertificateRequest("CN=tankside.example.org", key, HashAlgorithmName.SHA256);
        using var certificate = request.CreateSelfSigned(DateTimeOffset.UtcNow.AddDays(-1), DateTimeOffset.UtcNow.AddDays(2));
        File.WriteAllText(Path.Combine(folder, "fullchain.pem"), certificate.ExportCertificatePem());
        File.WriteAllText(Path.Combine(folder, "key.pem"), key.ExportPkcs8PrivateKeyPem());
        return certificate.GetCertHashString();
    }
}
