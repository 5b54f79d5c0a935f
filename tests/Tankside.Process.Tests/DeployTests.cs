using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using System.Text.RegularExpressions;
using Tankside.Testing;
using YamlDotNet.Core;
using YamlDotNet.Serialization;

namespace Tankside.Process.Tests;

/// <summary>What is handed to operators says what it should, read by the parsers of its own kind.</summary>
public class DeployTests
{
    private static readonly string Root = FindRoot();

    [Fact]
    public void Both_portals_share_one_database_and_can_write_nowhere_but_where_they_may()
    {
        var services = Services();
        Map[] portals = [new(services["portal-1"]), new(services["portal-2"])];

        Assert.All(portals, portal => Assert.Equal("true", portal.Text("read_only")));
        Assert.All(portals, portal => Assert.Equal(["ALL"], portal.List("cap_drop")));
        Assert.All(portals, portal => Assert.Equal(["/tmp"], portal.List("tmpfs")));
        Assert.Single(portals.Select(p => new Map(p["environment"]).Text("ConnectionStrings__Tankside")).Distinct());
        Assert.Contains("Host=database;", new Map(portals[0]["environment"]).Text("ConnectionStrings__Tankside"), StringComparison.Ordinal);
        Assert.All(portals, portal => Assert.False(portal.Has("ports")));
    }

    [Fact]
    public void Every_service_says_whether_it_is_well_and_only_the_proxy_is_reached_from_outside()
    {
        var services = Services();
        var own = services.Names.Where(n => n != "mail").Select(n => new Map(services[n])).ToList();

        Assert.All(own, service => Assert.NotEmpty(new Map(service["healthcheck"]).List("test")));
        Assert.Equal(["80:80", "443:443"], new Map(services["proxy"]).List("ports"));
        Assert.All(new Map(services["mail"]).List("ports"), port => Assert.StartsWith("127.0.0.1:", port, StringComparison.Ordinal));
        Assert.Equal(["trial"], new Map(services["mail"]).List("profiles"));
    }

    [Fact]
    public void Every_secret_comes_from_the_file_that_is_not_handed_out()
    {
        var compose = File.ReadAllText(Path.Combine(Root, "docker-compose.yml"));
        var example = File.ReadAllLines(Path.Combine(Root, "deploy/compose/example.env"));
        var asked = Regex.Matches(compose, @"\$\{(TANKSIDE_\w+)").Select(m => m.Groups[1].Value).Distinct().ToList();

        Assert.All(Regex.Matches(compose, "(?i)password(?:=|: )(.*)").Select(m => m.Groups[1].Value), value => Assert.StartsWith("${TANKSIDE_", value, StringComparison.Ordinal));
        Assert.All(example.Where(l => l.Contains("PASSWORD", StringComparison.Ordinal)), line => Assert.EndsWith("=", line, StringComparison.Ordinal));
        Assert.All(asked.Except(["TANKSIDE_VERSION"]), name => Assert.Contains(example, line => line.StartsWith(name + "=", StringComparison.Ordinal)));
        Assert.Contains(".env", File.ReadAllLines(Path.Combine(Root, ".gitignore")));
    }

    [Fact]
    public void The_image_is_built_apart_from_what_runs_and_runs_without_rights()
    {
        var lines = File.ReadAllLines(Path.Combine(Root, "deploy/Dockerfile"));

        Assert.Equal(2, lines.Count(l => l.StartsWith("FROM ", StringComparison.Ordinal)));
        Assert.Contains("/aspnet:", lines.Last(l => l.StartsWith("FROM ", StringComparison.Ordinal)), StringComparison.Ordinal);
        Assert.True(Array.IndexOf(lines, "USER $APP_UID") > Array.FindLastIndex(lines, l => l.StartsWith("RUN ", StringComparison.Ordinal)));
    }

    [Fact]
    public void The_proxy_in_the_container_is_told_the_same_as_the_one_on_the_machine()
    {
        var onMachine = File.ReadAllLines(Path.Combine(Root, "deploy/nginx.conf"));
        var inContainer = File.ReadAllLines(Path.Combine(Root, "deploy/compose/nginx.conf"));

        // But for where the portals are and where the log goes.
        Assert.Equal(onMachine.Skip(1).Select(Alike), inContainer.Skip(1).Select(Alike));

        static string Alike(string line) => line.Replace("portal-1:8080", "127.0.0.1:5081", StringComparison.Ordinal)
            .Replace("portal-2:8080", "127.0.0.1:5082", StringComparison.Ordinal).Replace("server_name _;", "server_name tankside.example.org;", StringComparison.Ordinal)
            .Replace("/dev/stdout", "/var/log/nginx/tankside.log", StringComparison.Ordinal);
    }

    [NginxTheory]
    [InlineData("deploy/nginx.conf")]
    [InlineData("deploy/compose/nginx.conf")]
    public async Task Nginx_takes_the_proxys_configuration(string file)
    {
        var folder = Directory.CreateTempSubdirectory("tankside-nginx-").FullName;
        var text = File.ReadAllText(Path.Combine(Root, file));
        // Everything that only the real machine has is put into the folder: names, certificate, log, ports.
        var here = Regex.Replace(text, @"\bportal-[12]\b", "127.0.0.1")
            .Replace("/etc/ssl/tankside/", folder + "/", StringComparison.Ordinal)
            .Replace("/etc/letsencrypt/live/tankside.example.org/", folder + "/", StringComparison.Ordinal);
        here = Regex.Replace(here, @"(?:/var/log/nginx/\S+|/dev/stdout)", $"{folder}/log");
        here = Regex.Replace(here, @"listen (?:\[::\]:)?(\d+)", m => $"listen unix:{folder}/{m.Groups[1].Value}{(m.Value.Contains('[') ? "-6" : "")}.sock");
        await WriteCertificateAsync(folder);
        await File.WriteAllTextAsync(Path.Combine(folder, "site.conf"), here);
        await File.WriteAllTextAsync(
            Path.Combine(folder, "nginx.conf"), $"pid {folder}/pid; error_log {folder}/error; events {{}} http {{ client_body_temp_path {folder}/body; proxy_temp_path {folder}/proxy; fastcgi_temp_path {folder}/fastcgi; uwsgi_temp_path {folder}/uwsgi; scgi_temp_path {folder}/scgi; include site.conf; }}");

        var (ended, said) = await Nginx.TestAsync(folder, Path.Combine(folder, "nginx.conf"));

        Assert.True(ended == 0, said);
        Directory.Delete(folder, recursive: true);
    }

    private static async Task WriteCertificateAsync(string folder)
    {
        using var key = RSA.Create(2048);
        using var certificate = new CertificateRequest("CN=tankside.example.org", key, HashAlgorithmName.SHA256, RSASignaturePadding.Pkcs1)
            .CreateSelfSigned(DateTimeOffset.UtcNow.AddDays(-1), DateTimeOffset.UtcNow.AddDays(1));
        foreach (var name in new[] { "key.pem", "privkey.pem" })
        {
            await File.WriteAllTextAsync(Path.Combine(folder, name), key.ExportPkcs8PrivateKeyPem());
        }

        await File.WriteAllTextAsync(Path.Combine(folder, "fullchain.pem"), certificate.ExportCertificatePem());
    }

    private static Map Services()
    {
        using var text = File.OpenText(Path.Combine(Root, "docker-compose.yml"));
        var whole = new DeserializerBuilder().Build().Deserialize<Dictionary<object, object>>(new MergingParser(new Parser(text)));
        return new Map(new Map(whole)["services"]);
    }

    private static string FindRoot()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "Program.sln")))
        {
            folder = folder.Parent ?? throw new InvalidOperationException("No Program.sln above the tests.");
        }

        return folder.FullName;
    }

    /// <summary>A mapping of a YAML file.</summary>
    private sealed class Map(object node)
    {
        private readonly Dictionary<object, object> entries = (Dictionary<object, object>)node;

        public object this[string name] => entries[name];

        public IEnumerable<string> Names => entries.Keys.Cast<string>();

        public bool Has(string name) => entries.ContainsKey(name);

        public string Text(string name) => (string)entries[name];

        public List<string> List(string name) => [.. ((List<object>)entries[name]).Cast<string>()];
    }
}
