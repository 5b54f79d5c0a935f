using System.Globalization;
using System.Net;
using Microsoft.AspNetCore.Http;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Load;

/// <summary>Today's reading posted by classes, beside an endpoint that reads the same form and inserts one row.</summary>
public static class ClassForm
{
    private const int Tanks = 50;

    public static async Task<Comparison> MeasureAsync(DatabaseKind kind, int clients, bool quick)
    {
        await using var place = await LoadPlace.CreateAsync(kind, Tanks);
        var tanks = place.Codes.ToDictionary(c => c.Code, c => c.TankId);
        await using var bare = await BareEndpoint.StartAsync("/bare/{code}", context => StoreAsync(context, place, tanks));
        var atPortal = NewClients(place.Portal.Listen(), clients);
        var atBare = NewClients(new Uri(bare.Urls.First()), clients);
        var posts = clients == 1 ? (quick ? 50 : 400) : quick ? 400 : 2000;
        return await Comparison.RunAsync(
            $"class form, {clients} at once", kind, quick ? 3 : 7, s => Comparison.PerSecond("posts", s),
            portal: () => Clients.LoopAsync(atPortal, posts, (client, number) => PostAsync(client, $"/t/{place.Codes[number % Tanks].Code}")),
            bare: () => Clients.LoopAsync(atBare, posts, (client, number) => PostAsync(client, $"/bare/{place.Codes[number % Tanks].Code}")));
    }

    private static List<HttpClient> NewClients(Uri address, int count) => [.. Enumerable.Range(0, count).Select(_ => Clients.New(address))];

    private static async Task PostAsync(HttpClient client, string address)
    {
        using var form = new FormUrlEncodedContent(new Dictionary<string, string>
        {
            ["id"] = Guid.NewGuid().ToString(),
            ["water"] = "10.4",
            ["unit"] = "C",
            ["moving"] = "true",
            ["bubbles"] = "true",
            ["levelOk"] = "true",
            ["clear"] = "true",
        });
        using var answer = await client.PostAsync(address, form);
        if (answer.StatusCode != HttpStatusCode.SeeOther)
        {
            throw new InvalidOperationException($"Answered {(int)answer.StatusCode}: that would measure something else.");
        }
    }

    /// <summary>The least that a web server has to do with the same post: read the form, write the row, send the browser on.</summary>
    private static async Task StoreAsync(HttpContext context, LoadPlace place, Dictionary<string, Guid> tanks)
    {
        var code = (string)context.Request.RouteValues["code"]!;
        var form = await context.Request.ReadFormAsync();
        await new BareReading(
            Guid.Parse(form["id"]!), tanks[code], TestWorld.Now, TestWorld.Now, double.Parse(form["water"]!, CultureInfo.InvariantCulture), 20.5,
            form["moving"] == "true").InsertAsync(place.Twin.Choice);
        context.Response.StatusCode = StatusCodes.Status303SeeOther;
        context.Response.Headers.Location = $"/bare/{code}?sent={form["id"]}";
    }
}
