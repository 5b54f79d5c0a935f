using System.Net;
using System.Text.Json;
using Tankside.Storage;

namespace Tankside.Portal.Tests.Bench;

/// <summary>A portal that nobody has signed in to. The bench stores nothing, so one serves all tests of a class.</summary>
public sealed class BenchPortal : IAsyncLifetime
{
    private PortalHost host = null!;

    public HttpClient Client { get; private set; } = null!;

    public async Task InitializeAsync()
    {
        host = await PortalHost.CreateAsync(DatabaseKind.Sqlite);
        Client = host.Anonymous();
    }

    public async Task DisposeAsync() => await host.DisposeAsync();

    /// <summary>Asks a calculator that must answer.</summary>
    public async Task<JsonElement> AnswerAsync(string calculatorAndQuery)
    {
        var (status, json) = await AskAsync(calculatorAndQuery);
        Assert.True(status == HttpStatusCode.OK, json.GetRawText());
        return json;
    }

    /// <summary>Asks a calculator that must refuse; the names in its errors, in order of the alphabet.</summary>
    public async Task<IReadOnlyDictionary<string, string>> RefusalAsync(string calculatorAndQuery, int status = 400)
    {
        using var answer = await Client.GetAsync("/api/v1/bench/" + calculatorAndQuery);
        var json = JsonDocument.Parse(await answer.Content.ReadAsStringAsync()).RootElement;
        Assert.True((int)answer.StatusCode == status, json.GetRawText());
        Assert.Equal("application/problem+json", answer.Content.Headers.ContentType?.MediaType);
        Assert.Equal(status, json.GetProperty("status").GetInt32());
        return json.GetProperty("errors").EnumerateObject().OrderBy(e => e.Name, StringComparer.Ordinal)
            .ToDictionary(e => e.Name, e => string.Join(' ', e.Value.EnumerateArray().Select(m => m.GetString())));
    }

    /// <summary>A page as its text, entities read.</summary>
    /// <param name="language">What the browser likes best.</param>
    public async Task<string> PageAsync(string address, string language = "en")
    {
        using var question = new HttpRequestMessage(HttpMethod.Get, address);
        question.Headers.Add("Accept-Language", language);
        using var answer = await Client.SendAsync(question);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        return WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync()).Replace('\u00A0', ' ');
    }

    /// <summary>All that the API says, whatever it answers.</summary>
    public async Task<string> RawAsync(string calculatorAndQuery, string language)
    {
        using var question = new HttpRequestMessage(HttpMethod.Get, "/api/v1/bench/" + calculatorAndQuery);
        question.Headers.Add("Accept-Language", language);
        using var answer = await Client.SendAsync(question);
        return await answer.Content.ReadAsStringAsync();
    }

    private async Task<(HttpStatusCode Status, JsonElement Json)> AskAsync(string calculatorAndQuery)
    {
        using var answer = await Client.GetAsync("/api/v1/bench/" + calculatorAndQuery);
        return (answer.StatusCode, JsonDocument.Parse(await answer.Content.ReadAsStringAsync()).RootElement);
    }
}

internal static class JsonNumbers
{
    public static double Number(this JsonElement json, string name) => json.GetProperty(name).GetDouble();

    public static bool IsNull(this JsonElement json, string name) => json.GetProperty(name).ValueKind == JsonValueKind.Null;

    public static string Text(this JsonElement json, string name) => json.GetProperty(name).GetString() ?? "";
}
