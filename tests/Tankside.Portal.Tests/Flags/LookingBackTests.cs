using System.IO.Compression;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Flags.Years;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Flags.Years;
using Tankside.Portal.Tests.Releases;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Flags;

/// <summary>A season looked back on: by the programme, and by those who study it.</summary>
public class LookingBackTests
{
    [Theory, BothDatabases]
    public async Task A_trouble_its_cause_and_its_losses_are_found_again_at_the_seasons_end(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        await SeedTroubleAsync(host, world.One);

        var years = await host.CallAsync<SeasonYears, IReadOnlyList<SeasonYear>>(y => y.LoadAsync(world.One.Programme.Id, CancellationToken.None));
        var coordinator = await host.ClientAs(Role.Coordinator, world.One);
        var page = await coordinator.ReadAsync("/totals/years");

        var rows = FilesOfTotals.Csv(await coordinator.GetByteArrayAsync("/totals/years/seasons.csv")).ToDictionary(r => r["measure"] + r["cause"]);

        var year = Assert.Single(years);
        Assert.Equal((1, 2, 2.0), (year.ChillerTanks, year.Supplied, year.HoursToAct.Median));
        Assert.Contains(new LossOfCause(TroubleCause.ChillerDead, 7, 1), year.Losses);
        var chillers = rows["tanks-with-chiller-failure"];
        // Wilson for 1 of 2 by hand: centre 50 %, half of it 1.96 × 0.6042 / 2.9208 = 40.55 %.
        Assert.Equal(("50.00", "9.45", "90.55", "1", "2"), (chillers["value"], chillers["low"], chillers["high"], chillers["n"], chillers["of"]));
        Assert.Equal(("2.00", "hours"), (rows["flag-to-first-deed"]["value"], rows["flag-to-first-deed"]["unit"]));
        Assert.Equal("7", rows["diedchiller-dead"]["n"]);
        Assert.Contains("1 of 2 tanks had at least one that was not a false alarm", page, StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task The_researchers_file_names_nobody_and_no_place_and_is_the_same_each_time(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var one = world.One;
        await SeedTroubleAsync(host, one);
        var coordinator = await host.ClientAs(Role.Coordinator, one);

        var file = await coordinator.GetByteArrayAsync("/totals/2026-27/research.zip");

        Assert.Equal(file, await coordinator.GetByteArrayAsync("/totals/2026-27/research.zip"));
        using var zip = new ZipArchive(new MemoryStream(file));
        Assert.Equal(["README.txt", "tanks.csv", "ledger.csv", "readings.csv", "flags.csv"], zip.Entries.Select(e => e.FullName));
        var all = string.Concat(zip.Entries.Select(Text));
        string[] secrets = [.. one.People.Values.SelectMany(p => new[] { p.Name, p.Email! }), .. one.Schools.Select(s => s.Name), .. one.Rooms.Select(r => r.Name), .. one.Tanks.Select(t => t.Code), "Ines said"];
        Assert.All(secrets, secret => Assert.DoesNotContain(secret, all, StringComparison.OrdinalIgnoreCase));
        Assert.Equal(["T001", "T002"], Rows(zip, "tanks.csv").Select(r => r["tank"]));
        Assert.Contains(Rows(zip, "ledger.csv"), r => r["kind"] == "alevin-loss" && r["count"] == "7" && r["at"].EndsWith('Z'));
        Assert.Equal(("chiller-fault", "chiller-dead", "visited"), Rows(zip, "flags.csv").Select(r => (r["kind"], r["cause"], r["outcome"])).Single());
    }

    private static async Task SeedTroubleAsync(PortalHost host, TestProgramme one)
    {
        var tank = one.Tanks[0].Id;
        var flag = new Flag
        {
            Id = Guid.NewGuid(),
            ProgrammeId = one.Programme.Id,
            TankId = tank,
            Kind = FlagKind.ChillerFault,
            State = FlagState.Settled,
            Urgency = Urgency.Today,
            OpenedAt = host.Now.AddHours(-40),
            UpdatedAt = host.Now,
            SettledAt = host.Now.AddHours(-20),
            Settlement = Settlement.Closed,
            StandsOn = host.Now.AddHours(-40),
            Evidence = new SaidWarmEvidence(Hatchery.Eggs.LifeStage.Alevin, host.Now, null, null),
            Hazard = Hazard.Around(host.Now, 24, 0.3),
            RuleVersion = "test",
        };
        await host.SeedAsync(db => db.AddRange(
            flag,
            new FlagEvent { FlagId = flag.Id, At = flag.OpenedAt.AddHours(2), By = one.People[Role.Coordinator].Id, Deed = FlagDeed.Called, Note = "Ines said it hums" },
            new FlagEvent { FlagId = flag.Id, At = flag.SettledAt!.Value, By = one.People[Role.Coordinator].Id, Deed = FlagDeed.Closed, Cause = TroubleCause.ChillerDead, Outcome = Outcome.Visited },
            new LedgerEntry { SeasonId = one.Season.Id, TankId = tank, Kind = LedgerKind.AlevinLoss, Count = 7, At = host.Now.AddHours(-30), EnteredAt = host.Now.AddHours(-30), Note = "Ines said seven" }));
    }

    private static List<Dictionary<string, string>> Rows(ZipArchive zip, string name)
    {
        using var bytes = new MemoryStream();
        using var entry = zip.GetEntry(name)!.Open();
        entry.CopyTo(bytes);
        return FilesOfTotals.Csv(bytes.ToArray());
    }

    private static string Text(ZipArchiveEntry entry)
    {
        using var reader = new StreamReader(entry.Open());
        return reader.ReadToEnd();
    }
}
