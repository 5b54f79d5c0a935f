using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Kit;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Portal.Tests.Flags;
using Tankside.Portal.Tests.Readings;
using Tankside.Portal.Tests.Releases.Bookings;
using Tankside.Portal.Tests.Shell;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Digests;

/// <summary>What a coordinator hands over: nothing in it is known only to whoever leaves.</summary>
public class HandOverTests
{
    [Theory, BothDatabases]
    public async Task Flags_with_their_promise_spares_people_doors_keys_and_six_weeks_stand_on_page_and_paper(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var one = world.One;
        var depot = new KitDepot { Id = Guid.NewGuid(), ProgrammeId = one.Programme.Id, Name = "Mill shed", Phone = "555-0139", Hours = "evenings" };
        await host.SeedAsync(db =>
        {
            db.AddRange(depot, Piece(one, "SP-1", depot), Piece(one, "SP-2", depot, KitCondition.Faulty), Piece(world.Two, "XX-9", null));
            db.Add(new Closure { Id = Guid.NewGuid(), ProgrammeId = one.Programme.Id, FirstDay = new(2027, 2, 15), LastDay = new(2027, 2, 19), Reason = "Winter break" });
            db.Add(new Closure { Id = Guid.NewGuid(), ProgrammeId = one.Programme.Id, FirstDay = new(2027, 4, 12), LastDay = new(2027, 4, 16), Reason = "Spring break" });
            db.Add(BookingSteps.Settled(one, change: b => b.On = new(2027, 2, 24)));
        });
        await using (var db = host.OpenDb())
        {
            var (teacher, school) = (one.People[Role.Teacher].Id, one.Schools[0].Id);
            await db.Users.Where(p => p.Id == teacher).ExecuteUpdateAsync(set => set.SetProperty(p => p.PhoneNumber, "555 0100"));
            await db.Schools.Where(s => s.Id == school).ExecuteUpdateAsync(set => set.SetProperty(s => s.DoorNotes, "North door, sign in at the office"));
        }

        await host.AcceptAsync(Sent.Water(one.Tanks[0], host.Now, 16));
        await host.JudgeAsync();
        await PromiseAsync(host, one);
        var coordinator = await host.ClientAs(Role.Coordinator, one);

        var page = await coordinator.ReadAsync("/handover");
        var paper = (await PrintedPdf.GetAsync(coordinator, "/handover.pdf")).Text.ReplaceLineEndings(" ");

        string[] said =
        [
            "A001, Birch Lane School, Room 1", "Coordinator A", "Mr K floats ice by noon", "SP-1", "SP-2", "faulty", "Winter break", "24 February", "Footbridge",
            "Teacher A", "555 0100", "North door, sign in at the office", "Logger: adds readings",
        ];
        Assert.All(said, s => Assert.Contains(s, page, StringComparison.Ordinal));
        Assert.All(new[] { "Mill shed", "SP-1", "Winter", "Footbridge", "555 0100", "promised", "API keys", "page 1 of" }, s => Assert.Contains(s, paper, StringComparison.OrdinalIgnoreCase));
        Assert.All(new[] { "Spring break", "XX-9", "Coordinator B" }, s => Assert.DoesNotContain(s, page, StringComparison.Ordinal));
    }

    [Theory, BothDatabases]
    public async Task A_silent_tank_stands_by_itself_and_not_among_the_flags(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        await host.SweepAsync();

        var page = await (await host.ClientAs(Role.ProgrammeLead, world.One)).ReadAsync("/handover");

        await using var db = host.OpenDb();
        var open = await db.Flags.Where(f => f.State == FlagState.Open && f.ProgrammeId == world.One.Programme.Id).Select(f => f.Kind).ToListAsync();
        var (silent, others) = (open.Count(k => k == FlagKind.Silent), open.Count(k => k != FlagKind.Silent));
        Assert.True(silent > 0, "no tank was silent");
        Assert.Matches($@"Silent tanks ?: {Lines(silent)}", page);
        Assert.Matches($@"Open flags ?: {(others == 0 ? "No flag is open" : Lines(others))}", page);

        static string Lines(int count) => count == 1 ? "1 line" : $"{count} lines";
    }

    [Theory, BothDatabases]
    public async Task Each_part_says_when_it_is_empty(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        await using (var db = host.OpenDb())
        {
            await db.Tanks.ExecuteUpdateAsync(set => set.SetProperty(t => t.ClosedAt, host.Now));
            await db.ApiKeys.ExecuteUpdateAsync(set => set.SetProperty(k => k.RevokedAt, host.Now));
        }

        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);
        var (page, paper) = (await lead.ReadAsync("/handover"), (await PrintedPdf.GetAsync(lead, "/handover.pdf")).Text);

        foreach (var empty in new[] { "No flag is open.", "No tank is silent.", "No kit lies at a depot.", "No school has told about its door or its bells.", "No key works.", "Nothing is known for the next six weeks." })
        {
            Assert.Contains(empty, page, StringComparison.Ordinal);
            Assert.Contains(empty, paper, StringComparison.Ordinal);
        }
    }

    private static async Task PromiseAsync(PortalHost host, TestProgramme programme)
    {
        await using var db = host.OpenDb();
        var flag = await db.Flags.SingleAsync(f => f.Kind == FlagKind.Warm);
        (flag.TakenBy, flag.TakenAt, flag.PromiseDue) = (programme.People[Role.Coordinator].Id, host.Now, host.Now.AddHours(3));
        db.Add(new FlagEvent { FlagId = flag.Id, At = host.Now, By = flag.TakenBy, Deed = FlagDeed.Promised, Note = "Mr K floats ice by noon", Until = flag.PromiseDue, Urgency = flag.Urgency });
        await db.SaveChangesAsync();
    }

    private static KitItem Piece(TestProgramme programme, string serial, KitDepot? depot, KitCondition condition = KitCondition.Working) =>
        new() { Id = Guid.NewGuid(), ProgrammeId = programme.Programme.Id, Kind = KitKind.Chiller, Serial = serial, Make = "Fenwick", DepotId = depot?.Id, Condition = condition };
}
