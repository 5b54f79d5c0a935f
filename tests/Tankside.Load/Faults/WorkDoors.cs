using System.Net;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Digests;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Eggs.Runs;
using Tankside.Hatchery.Kit;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Digests.Announcements;
using Tankside.Portal.Tests;

namespace Tankside.Load.Faults;

/// <summary>Everything else that people enter by a form.</summary>
public static class WorkDoors
{
    public static Door LedgerLine { get; } = new("ledger line", async (place, number) =>
    {
        var id = Guid.NewGuid();
        var send = await place.Coordinator.OpenFormAsync($"/ledger/{ReadingDoors.TankOf(place, number).Code}", Input(id, ("Kind", nameof(LedgerKind.EggLoss)), ("Count", "1")), "line");
        return new Act(() => Sending.SendAsync(send, HttpStatusCode.Redirect), async db => Of(await db.Ledger.CountAsync(e => e.SenderId == id)));
    });

    /// <summary>A release and its line in the ledger are one.</summary>
    public static Door Release { get; } = new("release", async (place, _) =>
    {
        var id = Guid.NewGuid();
        var send = await place.Coordinator.OpenFormAsync(
            "/releases",
            Input(id, ("Tank", place.Tanks[0].Code), ("Site", $"{place.Rows.Site.Id}"), ("Permit", $"{place.Rows.Permit.Id}"), ("Fish", "1"), ("Unit", "F")),
            "release");
        return new Act(
            () => Sending.SendAsync(send, HttpStatusCode.Redirect),
            async db => (await db.Releases.CountAsync(r => r.Id == id), await db.Ledger.CountAsync(e => e.ReleaseId == id)) switch
            {
                var (releases, lines) when releases == lines => Of(releases),
                var (_, lines) => lines > 1 ? Stands.Twice : Stands.Half,
            });
    });

    public static Door Tick { get; } = new("run tick", (place, _) =>
    {
        var id = Guid.NewGuid();
        return Task.FromResult(new Act(
            () => Sending.SendAsync(
                () => place.Nobody.PostAsync($"/run/{place.Rows.Driver}/ticks", new FormUrlEncodedContent(new Dictionary<string, string>
                {
                    ["id"] = $"{id}",
                    ["stop"] = $"{place.Rows.Stop}",
                    ["deed"] = nameof(TickDeed.Loaded),
                })),
                HttpStatusCode.SeeOther),
            async db => Of(await db.RunTicks.CountAsync(t => t.Id == id))));
    });

    public static Door Kit { get; } = new("kit act", async (place, number) =>
    {
        var id = Guid.NewGuid();
        var serial = place.Serials[number % place.Serials.Count];
        var send = await place.Coordinator.OpenFormAsync($"/kit/{serial}", Input(id, ("Kind", nameof(KitActKind.Noted)), ("Note", "hums")), "act");
        return new Act(() => Sending.SendAsync(send, HttpStatusCode.Redirect), async db => Of(await db.KitActs.CountAsync(a => a.SenderId == id)));
    });

    /// <summary>An announcement, its readers and its letters are one.</summary>
    public static Door Announcement { get; } = new("announcement", async (place, _) =>
    {
        var id = Guid.NewGuid();
        var fields = Input(id, ("Audience", nameof(Audience.Everybody)), ("SubjectEn", "Eggs"), ("TextEn", "They are on their way."), ("Do", AnnouncementForm.Look));
        using var look = await place.Coordinator.PostFormAsync("/announcements/new", fields, "announcement");
        var seen = (await look.Content.ReadAsStringAsync()).Split("name=\"Input.Seen\" value=\"")[1].Split('"')[0];
        var send = await place.Coordinator.OpenFormAsync("/announcements/new", new Dictionary<string, string>(fields) { ["Input.Seen"] = seen, ["Input.Do"] = AnnouncementForm.Send }, "announcement");
        return new Act(() => Sending.SendAsync(send, HttpStatusCode.Redirect), async db =>
        {
            var there = await db.Announcements.CountAsync(a => a.Id == id);
            var readers = await db.AnnouncementReaders.CountAsync(r => r.AnnouncementId == id && r.Without == null);
            var key = WriteAnnouncement.KeyOf(id);
            var letters = await db.OutgoingLetters.CountAsync(l => l.Key.StartsWith(key));
            return letters != readers || (there > 0) != (letters > 0) ? Stands.Half : Of(there);
        });
    });

    /// <summary>Form fields as the pages name them.</summary>
    private static Dictionary<string, string> Input(Guid id, params (string Field, string Value)[] fields) =>
        fields.Append(("Id", id.ToString())).Append(("CountedBy", nameof(CountMethod.Hand))).ToDictionary(f => $"Input.{f.Item1}", f => f.Item2);

    private static Stands Of(int times) => times switch { 0 => Stands.NotThere, 1 => Stands.Once, _ => Stands.Twice };
}
