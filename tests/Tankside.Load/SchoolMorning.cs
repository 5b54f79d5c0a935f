using System.Diagnostics;
using System.Net;
using Microsoft.EntityFrameworkCore;
using Tankside.Portal.Tests;
using Tankside.Storage;

namespace Tankside.Load;

/// <summary>
/// Five thousand classes within five minutes: each opens its label, sends its reading and reads the thanks, whether or not the ones before are
/// done. The judge works meanwhile, by the clock too. Nothing is compared here; what is told is whether anything failed and how long the
/// slowest waited.
/// </summary>
public static class SchoolMorning
{
    public static async Task<string> MeasureAsync(DatabaseKind kind, bool quick)
    {
        var (classes, within) = quick ? (200, TimeSpan.FromSeconds(12)) : (5000, TimeSpan.FromMinutes(5));
        await using var place = await LoadPlace.CreateAsync(kind, classes, judgeWorks: true);
        var address = place.Portal.Listen();
        using var client = Clients.New(address);
        using var stop = new CancellationTokenSource();
        var clock = RunClockAsync(place.Portal, stop.Token);
        var watch = Stopwatch.StartNew();
        var visits = new List<Task<Visit>>();
        for (var i = 0; i < classes; i++)
        {
            var due = within * ((double)i / classes);
            if (due > watch.Elapsed)
            {
                await Task.Delay(due - watch.Elapsed);
            }

            var code = place.Codes[i].Code;
            visits.Add(Task.Run(() => VisitAsync(client, code)));
        }

        var done = await Task.WhenAll(visits);
        var lasted = watch.Elapsed;
        await stop.CancelAsync();
        await clock;
        await using var db = place.Portal.OpenDb();
        var stored = await db.Readings.CountAsync();
        return FormattableString.Invariant(
            $"{classes} classes within {within.TotalSeconds:0} s on {kind}: {done.Count(v => v.Failed)} failed, {stored} readings stored, done after {lasted.TotalSeconds:0} s; form {Times(done, v => v.Form)}; sending {Times(done, v => v.Send)}; thanks {Times(done, v => v.Thanks)}");
    }

    private static async Task<Visit> VisitAsync(HttpClient client, string code)
    {
        try
        {
            var (form, _) = await TimedAsync(() => client.GetAsync($"/t/{code}"), HttpStatusCode.OK);
            using var fields = new FormUrlEncodedContent(new Dictionary<string, string>
            {
                ["id"] = Guid.NewGuid().ToString(),
                ["water"] = "51",
                ["unit"] = "F",
                ["moving"] = "true",
                ["bubbles"] = "true",
                ["levelOk"] = "true",
                ["clear"] = "true",
                ["deadEggs"] = "1",
            });
            var (send, next) = await TimedAsync(() => client.PostAsync($"/t/{code}", fields), HttpStatusCode.SeeOther);
            var (thanks, _) = await TimedAsync(() => client.GetAsync(next), HttpStatusCode.OK);
            return new Visit(form, send, thanks, Failed: false);
        }
        catch (HttpRequestException)
        {
            return new Visit(0, 0, 0, Failed: true);
        }
    }

    private static async Task<(double Milliseconds, Uri? Next)> TimedAsync(Func<Task<HttpResponseMessage>> ask, HttpStatusCode expected)
    {
        var from = Stopwatch.GetTimestamp();
        using var answer = await ask();
        await answer.Content.ReadAsByteArrayAsync();
        return answer.StatusCode == expected
            ? (Stopwatch.GetElapsedTime(from).TotalMilliseconds, answer.Headers.Location)
            : throw new HttpRequestException($"answered {(int)answer.StatusCode}");
    }

    /// <summary>The portal's clock goes with the real one, so that what it does each minute is done.</summary>
    private static async Task RunClockAsync(PortalHost portal, CancellationToken stop)
    {
        var start = portal.Time.GetUtcNow();
        var watch = Stopwatch.StartNew();
        using var timer = new PeriodicTimer(TimeSpan.FromMilliseconds(200));
        while (!stop.IsCancellationRequested)
        {
            portal.Time.SetUtcNow(start + watch.Elapsed);
            try
            {
                await timer.WaitForNextTickAsync(stop);
            }
            catch (OperationCanceledException)
            {
                break;
            }
        }
    }

    private static string Times(IReadOnlyList<Visit> visits, Func<Visit, double> of)
    {
        var times = visits.Where(v => !v.Failed).Select(of).Order().ToList();
        return times.Count == 0 ? "none" : FormattableString.Invariant($"p50 {times[(times.Count - 1) / 2]:0} ms, p99 {times[(int)((times.Count - 1) * 0.99)]:0} ms, slowest {times[^1]:0} ms");
    }

    /// <summary>Milliseconds of each of a class's three requests.</summary>
    private sealed record Visit(double Form, double Send, double Thanks, bool Failed);
}
