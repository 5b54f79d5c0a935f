using System.Net;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Releases;

namespace Tankside.Portal.Tests.Releases;

/// <summary>The ledger's and the releases' forms as a person fills them in.</summary>
internal static class LedgerForms
{
    public static Dictionary<string, string> Line(LedgerKind kind, string count, params (string Field, string Value)[] more) =>
        Fields([("Kind", kind.ToString()), ("Count", count), .. more]);

    public static Dictionary<string, string> Fields(params IEnumerable<(string Field, string Value)> fields) =>
        fields.Aggregate(new Dictionary<string, string> { ["Input.CountedBy"] = nameof(CountMethod.Hand) }, (form, field) =>
        {
            form["Input." + field.Field] = field.Value;
            return form;
        });

    public static Dictionary<string, string> Release(
        Tank tank, ReleaseSite site, Permit permit, string fish, params (string Field, string Value)[] more) =>
        Fields([("Tank", tank.Code), ("Site", site.Id.ToString()), ("Permit", permit.Id.ToString()), ("Fish", fish), ("Unit", "F"), .. more]);

    /// <summary>Sends a form that must be taken and reads the page that it leads to.</summary>
    public static async Task<string> SendAsync(this HttpClient client, string address, Dictionary<string, string> fields, string handler)
    {
        var answer = await client.PostFormAsync(address, fields, handler);
        Assert.True(answer.StatusCode == HttpStatusCode.Redirect, $"{address} answered {(int)answer.StatusCode}: {Text(await answer.Content.ReadAsStringAsync())}");
        return await client.ReadAsync(answer.Headers.Location!.ToString().Split('#')[0]);
    }

    /// <summary>Sends a form that must be refused and reads the page that comes back.</summary>
    public static async Task<string> RefusedAsync(this HttpClient client, string address, Dictionary<string, string> fields, string handler)
    {
        var answer = await client.PostFormAsync(address, fields, handler);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        return Text(await answer.Content.ReadAsStringAsync());
    }

    public static async Task<string> ReadAsync(this HttpClient client, string address) => Text(await client.GetStringAsync(address));

    /// <summary>Characters as people read them.</summary>
    private static string Text(string page) => WebUtility.HtmlDecode(page);

    public static async Task<TankBalance> BalanceAsync(this PortalHost host, Tank tank)
    {
        await using var db = host.OpenDb();
        var closed = await db.Tanks.AnyAsync(t => t.Id == tank.Id && t.ClosedAt != null);
        return TankBalance.Of(await db.Ledger.Where(e => e.TankId == tank.Id).ToListAsync(), closed);
    }
}
