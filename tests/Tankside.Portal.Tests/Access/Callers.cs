using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.RegularExpressions;
using Tankside.Hatchery.People;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Access;

/// <summary>The made-up world with everybody of the address table at its door.</summary>
public sealed partial class Callers : IAsyncDisposable
{
    private readonly Dictionary<Caller, (HttpClient Client, string Token)> clients = [];
    private Dictionary<string, string> values = [];
    private int sent;

    private Callers(PortalHost host, TestWorld world) => (Host, World) = (host, world);

    public PortalHost Host { get; }

    public TestWorld World { get; }

    /// <summary>A portal as it runs in earnest, with flags, a note and a release in it, and everybody signed in.</summary>
    /// <param name="kind">Which database it keeps its data in.</param>
    /// <param name="listen">True where a real browser knocks, and nobody of the table's own.</param>
    public static async Task<Callers> GatherAsync(DatabaseKind kind, bool listen = false)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind, new PortalHostSettings { Environment = "Production" });
        if (listen)
        {
            host.Listen();
        }

        var callers = new Callers(host, world);
        await callers.FurnishAsync();
        foreach (var caller in listen ? [] : Enum.GetValues<Caller>())
        {
            var client = await callers.ComeAsync(caller);
            var page = await client.GetStringAsync(IsSignedIn(caller) ? "/" : "/sign-in");
            callers.clients.Add(caller, (client, TokenInput().Match(page).Groups[1].Value));
        }

        return callers;
    }

    public ValueTask DisposeAsync() => Host.DisposeAsync();

    public HttpClient Client(Caller caller) => clients[caller].Client;

    /// <summary>Puts the world's values into an address.</summary>
    public string Fill(string address) => values.Aggregate(address, (text, v) => text.Replace($"{{{v.Key}}}", v.Value, StringComparison.Ordinal));

    public string AddressFor(Caller caller, AddressRow row) => Fill(caller == Caller.RoomCode
        ? row.Address.Replace("{tank}", "{label}", StringComparison.Ordinal).Replace("{next-tank}", "{label}", StringComparison.Ordinal)
        : row.Address);

    /// <summary>Sends what the row says; a form goes with its name and nothing filled in.</summary>
    public async Task<HttpResponseMessage> TryAsync(Caller caller, AddressRow row, bool withToken, string? address = null)
    {
        var (client, token) = clients[caller];
        using var request = new HttpRequestMessage(new HttpMethod(row.Method), address ?? AddressFor(caller, row));
        // Each from an address of its own, so that the limits on guessing do not answer instead.
        request.Headers.Add("X-Forwarded-For", $"10.{sent >> 16 & 255}.{sent >> 8 & 255}.{sent++ & 255}");
        if (row.Method == "POST")
        {
            request.Content = row.Pattern.StartsWith("/api", StringComparison.Ordinal)
                ? new StringContent("{\"readings\":[]}", Encoding.UTF8, "application/json")
                : new FormUrlEncodedContent(Fields(row.Form, withToken ? token : null));
        }

        return await client.SendAsync(request);
    }

    /// <summary>The letter of the address table for an answer; the status itself when it has none.</summary>
    public static string Letter(HttpResponseMessage answer) => (answer.StatusCode, answer.Headers.Location?.ToString()) switch
    {
        (HttpStatusCode.Unauthorized, _) => "k",
        (HttpStatusCode.Forbidden, _) => "r",
        (HttpStatusCode.NotFound or HttpStatusCode.Gone, _) => "-",
        (HttpStatusCode.BadRequest, _) => "b",
        (HttpStatusCode.Found or HttpStatusCode.SeeOther, { } to) =>
            to.Contains("/sign-in?to=", StringComparison.Ordinal) ? "s" : to.Contains("/not-yours", StringComparison.Ordinal) ? "r" : "y",
        (HttpStatusCode.OK or HttpStatusCode.NoContent or HttpStatusCode.UnprocessableEntity, null) => "y",
        var (status, to) => $"{(int)status} {to}",
    };

    private static bool IsSignedIn(Caller caller) => caller is > Caller.Nobody and < Caller.LoggerKey;

    private static Dictionary<string, string> Fields(string? form, string? token)
    {
        var fields = new Dictionary<string, string>();
        if (form is not null)
        {
            fields.Add("_handler", form);
        }

        if (token is not null)
        {
            fields.Add("__RequestVerificationToken", token);
        }

        return fields;
    }

    private async Task<HttpClient> ComeAsync(Caller caller)
    {
        var client = caller switch
        {
            Caller.LoggerKey => Host.ClientWithKey(World.One.LoggerKey),
            Caller.CoordinatorKey => Host.ClientWithKey(World.One.CoordinatorKey),
            Caller.CoordinatorKeyOfOtherProgramme => Host.ClientWithKey(World.Two.CoordinatorKey),
            Caller.RoomCode => Host.ClientWithKey(values["label"]),
            Caller.TeacherOfOtherSchool => Host.Anonymous(),
            Caller.LeadOfOtherProgramme => await Host.ClientAs(Role.ProgrammeLead, World.Two),
            Caller.Nobody => Host.Anonymous(),
            _ => await Host.ClientAs(Enum.Parse<Role>(caller.ToString()), World.One),
        };
        if (caller == Caller.TeacherOfOtherSchool)
        {
            await client.SignInAsync(NextDoor, TestWorld.Password);
        }

        client.DefaultRequestHeaders.Accept.Add(new MediaTypeWithQualityHeaderValue("*/*"));
        return client;
    }

    [GeneratedRegex("name=\"__RequestVerificationToken\"[^>]*value=\"([^\"]+)\"")]
    private static partial Regex TokenInput();
}
