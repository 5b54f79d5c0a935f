using System.Net;

namespace Tankside.Portal.Tests.Flags.Rehearsals;

/// <summary>What somebody does with a rehearsal, by its plain forms.</summary>
internal static class StartSteps
{
    public static Dictionary<string, string> Start(string number, Guid? person = null)
    {
        var fields = new Dictionary<string, string> { ["Input.Number"] = number };
        if (person is { } id)
        {
            fields.Add("Input.Person", $"{id}");
        }

        return fields;
    }

    /// <summary>Starts a morning of one's own and gives its address.</summary>
    public static async Task<string> StartAsync(this HttpClient client, string number) =>
        await client.LeadsToAsync("/rehearsal", Start(number), "start");

    /// <summary>Rings about a tank and reads the page that follows.</summary>
    /// <param name="version">The state that is acted on, where it is not the newest.</param>
    /// <param name="sent">The code that is sent, where it is not that of the open tank.</param>
    public static async Task<string> CallAsync(this HttpClient client, string address, string code, int? version = null, string? sent = null)
    {
        var fields = Fields(version);
        fields.Add("Input.Tank", sent ?? code);
        return await client.ReadAsync(await client.LeadsToAsync($"{address}?tank={code}", fields, "call"));
    }

    /// <summary>Takes the last call back, or ends the morning.</summary>
    public static async Task<string> MoveAsync(this HttpClient client, string address, string move, int? version = null) =>
        await client.ReadAsync(await client.LeadsToAsync(address, Fields(version), move));

    private static Dictionary<string, string> Fields(int? version) => version is { } seen ? new() { ["Input.Version"] = $"{seen}" } : [];

    private static async Task<string> LeadsToAsync(this HttpClient client, string address, Dictionary<string, string> fields, string handler)
    {
        var answer = await client.PostFormAsync(address, fields, handler);
        Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode);
        return new Uri(new Uri("http://localhost"), answer.Headers.Location!).PathAndQuery;
    }
}
