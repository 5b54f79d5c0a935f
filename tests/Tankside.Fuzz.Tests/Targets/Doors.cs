using System.Net;
using System.Net.Http.Headers;
using System.Reflection;
using System.Text;
using System.Text.RegularExpressions;
using Microsoft.AspNetCore.Components;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Portal.Tests;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Fuzz.Tests.Targets;

/// <summary>
/// The doors themselves, with a database behind them: whatever is sent is answered, never with the page of a mistake of ours. The first line says which
/// door, the rest is sent there. PostgreSQL where there is one, for it takes less than SQLite does.
/// </summary>
public static partial class Doors
{
    private static readonly Lazy<Opened> Portal = new(() => Task.Run(OpenAsync).GetAwaiter().GetResult());

    /// <summary>The pages, and the words that their addresses take.</summary>
    private static readonly (string Address, string[] Words)[] Pages =
    [
        .. typeof(Program).Assembly.GetTypes().SelectMany(page => page.GetCustomAttributes<RouteAttribute>().Select(route => (route.Template, page.GetProperties(BindingFlags.Instance | BindingFlags.NonPublic | BindingFlags.Public)
            .Select(p => (p.GetCustomAttribute<SupplyParameterFromQueryAttribute>(), p.Name)).Where(p => p.Item1 is not null).Select(p => p.Item1!.Name ?? p.Name).ToArray()))).OrderBy(p => p.Template, StringComparer.Ordinal),
        ("/api/v1/tanks", ["page", "at", "season"]), ("/api/v1/tanks/{Code}/forecast", ["day"]), ("/api/v1/flags", ["since", "state"]), ("/api/v1/seasons/{Name}/totals", ["format"]),
        ("/tanks/{Code}/reading", ["sent", "ask", "corrects"]), ("/tanks/{Code}/reading/week", ["of"]), ("/tanks/{Code}/reading/help", ["sign", "sent"]),
    ];

    private static readonly string[] Values =
        ["A001", "1", "all", "-1", "es", "2027-02-03", "0001-01-01", "9999-12-31", "9999-12-27", "2027-02-03T08:15", "week", "school", "egg", "7b0c1f7e-3a53-4c1e-9d2b-0c2f3a4b5c6d", "2026-27", "csv", "Reed Valley", "true", "99999999999", "%", "_", "\0", "a\0b"];

    public static Target Target { get; } = new("doors", Make, Read)
    {
        Words = [.. Values.Select(Uri.EscapeDataString), .. Pages.SelectMany(p => p.Words).Distinct().Select(w => $"&{w}=")],
        MostBytesOnce = 256 << 20,
        MostBytesEach = 20_000,
        LongestInput = 20_000,
        Slice = 80,
    };

    /// <summary>Whoever asks a hundred times a second would be told to wait and reach no parser.</summary>
    private static readonly Dictionary<string, string> Unlimited = new[]
    {
        "Tankside:ApiCallsAMinute", "Tankside:Api:RequestsPerMinute", "Tankside:MemberRequestsPerMinute", "Tankside:FormsPerMinute",
    }.ToDictionary(key => key, _ => "100000000");

    private sealed record Opened(PortalHost Host, TestWorld World, HttpClient Nobody, HttpClient Logger, HttpClient Lead)
    {
        public string ImportToken { get; set; } = "";
    }

    private static async Task<Opened> OpenAsync()
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(PostgresServer.WhyUnavailable is null ? DatabaseKind.PostgreSQL : DatabaseKind.Sqlite, new PortalHostSettings { Keys = Unlimited });
        var opened = new Opened(host, world, host.Anonymous(), host.ClientWithKey(world.One.LoggerKey), await host.ClientAs(Role.ProgrammeLead, world.One));
        opened.ImportToken = Token().Match(await opened.Lead.GetStringAsync("/readings/import")).Groups[1].Value;
        AppDomain.CurrentDomain.ProcessExit += (_, _) => host.DisposeAsync().AsTask().GetAwaiter().GetResult();
        return opened;
    }

    private static byte[] Make(Dice dice)
    {
        switch (dice.Below(6))
        {
            case 0:
                return [.. "api\n"u8, .. ReadingsJson.Target.Make(dice)];
            case 1:
                return [.. Texts.Bytes(dice.Of(["class", "class/help", "class/answer", "parts", "parts/help"]) + "\n"), .. Forms.Target.Make(dice)];
            case 2:
                return dice.OneIn(4) ? [.. "calendar\n"u8, .. CalendarIn.Target.Make(dice)] : [.. dice.OneIn(2) ? "import\n"u8 : "places\n"u8, .. dice.OneIn(2) ? Sheets.Csv.Make(dice) : Sheets.Workbook.Make(dice)];
            default:
                var (address, words) = dice.Of(Pages);
                var filled = Parameter().Replace(address, _ => dice.OneIn(3) ? Uri.EscapeDataString(dice.Of(Values).Replace("\0", "", StringComparison.Ordinal)) : "A001");
                return Texts.Bytes($"page\n{filled}?{string.Join('&', words.Where(_ => !dice.OneIn(3)).Select(w => $"{w}={Uri.EscapeDataString(dice.OneIn(3) ? dice.Of(Mutations.Odd) : dice.Of(Values))}"))}");
        }
    }

    private static string Read(byte[] bytes) => Task.Run(() => SendAsync(bytes)).GetAwaiter().GetResult();

    private static async Task<string> SendAsync(byte[] bytes)
    {
        var end = Array.IndexOf(bytes, (byte)'\n');
        var (door, sent) = (Encoding.UTF8.GetString(bytes, 0, Math.Max(0, end)), bytes[(end + 1)..]);
        var portal = Portal.Value;
        var form = $"/t/{portal.World.One.RoomCodes[0].Code}";
        using var answer = door switch
        {
            "api" => await PostAsync(portal.Logger, "/api/v1/readings", sent, "application/json"),
            "class" => await PostAsync(portal.Nobody, form, sent, "application/x-www-form-urlencoded"),
            "class/help" or "class/answer" => await PostAsync(portal.Nobody, form + door[5..], sent, "application/x-www-form-urlencoded"),
            "parts" or "parts/help" => await portal.Nobody.PostAsync(form + door[5..], Parts(sent)),
            "import" => await ImportAsync(portal, sent, "/readings/import", "sheet"),
            "places" => await ImportAsync(portal, sent, "/places/import", "sheet"),
            "calendar" => await ImportAsync(portal, sent, "/season/closures/calendar", "calendar"),
            "page" when AddressOf(sent) is { } address => await portal.Lead.GetAsync(address),
            _ => null,
        };
        Held.That(answer is null || (int)answer.StatusCode < 500, $"The door {door} answered {(int?)answer?.StatusCode}.");
        return answer is null ? "no door" : $"{door} {(answer.StatusCode is HttpStatusCode.TooManyRequests ? "" : answer.StatusCode)}";
    }

    /// <summary>Null for what no browser would send, and for a NUL in a path, which the server refuses before the portal sees it.</summary>
    private static Uri? AddressOf(byte[] sent) =>
        Encoding.UTF8.GetString(sent) is ['/', not '/', ..] text && !text.Any(c => char.IsControl(c) || c is '\\' or '#') && Uri.TryCreate(text, UriKind.Relative, out var address)
        && !text.Split('?')[0].Contains("%00", StringComparison.Ordinal) && !text.StartsWith("/sign-out", StringComparison.Ordinal) ? address : null;

    private static Task<HttpResponseMessage> PostAsync(HttpClient client, string address, byte[] body, string type)
    {
        var content = new ByteArrayContent(body);
        content.Headers.ContentType = new MediaTypeHeaderValue(type);
        return client.PostAsync(address, content);
    }

    /// <summary>The same fields as a form with files has them: there the server lets any sign through.</summary>
    private static MultipartFormDataContent Parts(byte[] sent)
    {
        var form = new MultipartFormDataContent();
        foreach (var field in Encoding.UTF8.GetString(sent).Split('&').Select(f => f.Split('=', 2)).Where(f => f is [{ Length: > 0 }, _]).Take(100))
        {
            form.Add(new StringContent(Uri.UnescapeDataString(field[1])), $"\"{new string([.. field[0].Where(char.IsAsciiLetterOrDigit)])}\"");
        }

        return form;
    }

    /// <summary>A file that is refused stores nothing; one that is taken, one import and no reading.</summary>
    private static async Task<HttpResponseMessage> ImportAsync(Opened portal, byte[] file, string address, string handler)
    {
        var before = await CountAsync(portal.Host);
        using var form = new MultipartFormDataContent
        {
            { new StringContent(handler), "_handler" },
            { new StringContent(portal.ImportToken), "__RequestVerificationToken" },
            { new StringContent(Guid.NewGuid().ToString()), "Input.Id" },
            { new ByteArrayContent(file), "Input.File", "sheet" },
        };
        var answer = await portal.Lead.PostAsync(address, form);
        var after = await CountAsync(portal.Host);
        Held.That(after.Readings == before.Readings, "A file that was only sent in stored readings.");
        Held.That(after.Imports - before.Imports == (answer.StatusCode is HttpStatusCode.Redirect or HttpStatusCode.SeeOther ? 1 : 0), $"After the answer {(int)answer.StatusCode} there are {after.Imports - before.Imports} imports more.");
        return answer;
    }

    private static async Task<(int Imports, int Readings)> CountAsync(PortalHost host)
    {
        await using var db = host.OpenDb();
        return (await db.ReadingImports.CountAsync() + await db.PlaceImports.CountAsync(), await db.Readings.CountAsync());
    }

    [GeneratedRegex("name=\"__RequestVerificationToken\"[^>]*value=\"([^\"]+)\"")]
    private static partial Regex Token();

    [GeneratedRegex(@"\{[^}]+\}")]
    private static partial Regex Parameter();
}
