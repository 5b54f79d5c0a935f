using System.Globalization;
using System.Net;
using Microsoft.Data.Sqlite;
using Tankside.Storage;

namespace Tankside.Portal.Shell;

/// <summary>A configuration key with a value it cannot have; the message names the key and what it takes.</summary>
public sealed class ConfigurationException(string key, string message) : Exception($"{key}: {message}")
{
    public string Key { get; } = key;
}

/// <summary>Where mail goes out. Without a host it is dropped as files, so that a development start needs no mail server.</summary>
public sealed record MailOptions(string? Host, int Port, string? User, string? Password, string From, bool StartTls)
{
    /// <summary>Where reports of letters that could not be delivered go; null for the sender.</summary>
    public string? ReturnTo { get; init; }
}

/// <summary>The installation's own settings, read and checked once at start. docs/configuration.md lists them.</summary>
public sealed record TanksideOptions
{
    public required DatabaseChoice Database { get; init; }

    /// <summary>True when no connection string was given: the embedded file, the only place the demo season is seeded by itself.</summary>
    public required bool UsesDefaultFile { get; init; }

    /// <summary>Where long reading goes, when the database stands on several hosts.</summary>
    public ReadFrom ReadFrom { get; init; }

    public required Uri PublicUrl { get; init; }

    public required MailOptions Mail { get; init; }

    public required bool DemoSeason { get; init; }

    /// <summary>Calls a minute and address that the API serves; loggers send batches and need few.</summary>
    public int ApiCallsAMinute { get; init; } = DefaultCalls;

    /// <summary>Calls a minute that the API serves to one key, from wherever it calls.</summary>
    public int ApiRequestsPerMinute { get; init; } = DefaultRequests;

    /// <summary>Requests a minute that a signed-in member is served; a page that a person opens takes one or two.</summary>
    public int MemberRequestsPerMinute { get; init; } = DefaultOfMember;

    /// <summary>Living pages that one member holds open at this portal. Each takes memory here for as long as it is open.</summary>
    public int LivingPagesPerMember { get; init; } = DefaultLiving;

    /// <summary>Forms a minute that are taken at one room code.</summary>
    public int FormsPerMinute { get; init; } = DefaultForms;

    /// <summary>Networks, besides this machine, whose proxies are believed when they say who calls and how.</summary>
    public IReadOnlyList<IPNetwork> Proxies { get; init; } = [];

    /// <summary>Folder for the embedded database and the mail drop.</summary>
    public required string DataFolder { get; init; }

    /// <summary>Where the doctor looks for the newest backup; null when nobody told it.</summary>
    public string? Backups { get; init; }

    /// <summary>Where measurements are fetched; null for nowhere.</summary>
    public Uri? MetricsListen { get; init; }

    public static TanksideOptions From(IConfiguration configuration, IHostEnvironment environment)
    {
        var data = Path.Combine(environment.ContentRootPath, configuration["Tankside:DataFolder"] is { Length: > 0 } folder ? folder : "data");
        var given = configuration.GetConnectionString("Tankside");
        var kind = KindOf(configuration["Tankside:Database"]);
        var database = Choose(kind, given, data);
        return new TanksideOptions
        {
            Database = database,
            ReadFrom = ReadFromOf(configuration["Tankside:ReadFrom"], database),
            UsesDefaultFile = string.IsNullOrWhiteSpace(given),
            PublicUrl = UrlOf(configuration["Tankside:PublicUrl"]),
            Mail = MailOf(configuration.GetSection("Tankside:Mail")),
            DemoSeason = environment.IsDevelopment() && Flag(configuration, "Tankside:DemoSeason", whenUnset: true),
            ApiCallsAMinute = CallsOf(configuration, "Tankside:ApiCallsAMinute", DefaultCalls),
            ApiRequestsPerMinute = CallsOf(configuration, "Tankside:Api:RequestsPerMinute", DefaultRequests),
            MemberRequestsPerMinute = CallsOf(configuration, "Tankside:MemberRequestsPerMinute", DefaultOfMember),
            LivingPagesPerMember = CallsOf(configuration, "Tankside:LivingPagesPerMember", DefaultLiving),
            FormsPerMinute = CallsOf(configuration, "Tankside:FormsPerMinute", DefaultForms),
            Proxies = ProxiesOf(configuration["Tankside:Proxies"]),
            DataFolder = data,
            MetricsListen = ListenOf(configuration["Tankside:Metrics:Listen"]),
            Backups = configuration["Tankside:Backups"] is { Length: > 0 } backups ? backups : null,
        };
    }

    private static DatabaseKind KindOf(string? text) => text switch
    {
        null or "" => DatabaseKind.Sqlite,
        _ when Enum.TryParse<DatabaseKind>(text, ignoreCase: true, out var kind) && Enum.IsDefined(kind) => kind,
        _ => throw new ConfigurationException("Tankside:Database", $"'{text}' is neither Sqlite nor PostgreSQL."),
    };

    private static DatabaseChoice Choose(DatabaseKind kind, string? given, string data)
    {
        if (kind == DatabaseKind.PostgreSQL)
        {
            return string.IsNullOrWhiteSpace(given)
                ? throw new ConfigurationException("ConnectionStrings:Tankside", "PostgreSQL needs a connection string, e.g. Host=localhost;Database=tankside.")
                : new DatabaseChoice(kind, Checked(() => SeveralHosts.Primary(given)));
        }

        if (!string.IsNullOrWhiteSpace(given))
        {
            return new DatabaseChoice(kind, Checked(() => new SqliteConnectionStringBuilder(given).ConnectionString));
        }

        OwnFolder.Make(data);
        return new DatabaseChoice(kind, new SqliteConnectionStringBuilder { DataSource = Path.Combine(data, "tankside.db") }.ConnectionString);
    }

    private static ReadFrom ReadFromOf(string? text, DatabaseChoice database)
    {
        if (string.IsNullOrEmpty(text))
        {
            return ReadFrom.Primary;
        }

        return !Enum.TryParse<ReadFrom>(text, ignoreCase: true, out var from) || !Enum.IsDefined(from)
            ? throw new ConfigurationException("Tankside:ReadFrom", $"'{text}' is neither Primary nor Replica.")
            : from == ReadFrom.Replica && !database.IsOnSeveral()
            ? throw new ConfigurationException("Tankside:ReadFrom", "A replica needs a PostgreSQL connection string with several hosts, e.g. Host=one,two;Database=tankside.")
            : from;
    }

    private static string Checked(Func<string> parse)
    {
        try
        {
            return parse();
        }
        catch (ArgumentException e)
        {
            throw new ConfigurationException("ConnectionStrings:Tankside", e.Message);
        }
    }

    /// <summary>An address and port of this machine, e.g. 127.0.0.1:9464.</summary>
    private static Uri? ListenOf(string? text) => text switch
    {
        null or "" => null,
        _ when IPEndPoint.TryParse(text, out var at) && at.Port > 0 => new Uri($"http://{at}/"),
        _ => throw new ConfigurationException("Tankside:Metrics:Listen", $"'{text}' is not an address and a port of this machine, e.g. 127.0.0.1:9464."),
    };

    private static Uri UrlOf(string? text) =>
        string.IsNullOrWhiteSpace(text) ? new Uri("http://localhost:5080/")
        : Uri.TryCreate(text.TrimEnd('/') + "/", UriKind.Absolute, out var url) && url.Scheme is "http" or "https" ? url
        : throw new ConfigurationException("Tankside:PublicUrl", $"'{text}' is not an http or https address.");

    private static MailOptions MailOf(IConfigurationSection mail)
    {
        var host = mail["Host"];
        var port = mail["Port"] is { Length: > 0 } text
            ? int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var number) && number is > 0 and < 65536
                ? number
                : throw new ConfigurationException("Tankside:Mail:Port", $"'{text}' is not a port number.")
            : 587;
        return new MailOptions(
            string.IsNullOrWhiteSpace(host) ? null : host, port, mail["User"], mail["Password"],
            mail["From"] ?? "tankside@localhost", Flag(mail, "StartTls", whenUnset: port == 587))
        {
            ReturnTo = string.IsNullOrWhiteSpace(mail["ReturnTo"]) ? null
                : MimeKit.MailboxAddress.TryParse(mail["ReturnTo"], out _) ? mail["ReturnTo"]
                : throw new ConfigurationException("Tankside:Mail:ReturnTo", $"'{mail["ReturnTo"]}' is not a mail address."),
        };
    }

    private static IReadOnlyList<IPNetwork> ProxiesOf(string? text) =>
    [
        .. (text ?? "").Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries).Select(one =>
            IPNetwork.TryParse(one, out var network) ? network
            : IPAddress.TryParse(one, out var address) ? new IPNetwork(address, address.GetAddressBytes().Length * 8)
            : throw new ConfigurationException("Tankside:Proxies", $"'{one}' is neither an address nor a network such as 172.16.0.0/12.")),
    ];

    private const int DefaultCalls = 6000, DefaultRequests = 600, DefaultOfMember = 1200, DefaultForms = 120, DefaultLiving = 40;

    private static int CallsOf(IConfiguration configuration, string key, int whenUnset) => configuration[key] switch
    {
        null or "" => whenUnset,
        var text when int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var calls) && calls > 0 => calls,
        var text => throw new ConfigurationException(key, $"'{text}' is not a number of calls, 1 or more."),
    };

    private static bool Flag(IConfiguration configuration, string key, bool whenUnset) => configuration[key] switch
    {
        null or "" => whenUnset,
        var text when bool.TryParse(text, out var value) => value,
        var text => throw new ConfigurationException(key, $"'{text}' is neither true nor false."),
    };
}
