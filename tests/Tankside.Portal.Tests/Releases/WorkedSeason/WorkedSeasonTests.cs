using System.Globalization;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Releases;
using Tankside.Hatchery.Seasons;
using Tankside.Portal.Releases;
using Tankside.Science.Eggs;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Releases.WorkedSeason;

/// <summary>The season of docs/worked-season.md: twelve tanks, every kind of event, added up by hand; the files have to agree to the fish.</summary>
public class WorkedSeasonTests
{
    private const string Name = "worked";

    private static readonly Dictionary<string, LedgerKind> Kinds = new()
    {
        ["received"] = LedgerKind.Received,
        ["dead_on_arrival"] = LedgerKind.DeadOnArrival,
        ["egg_loss"] = LedgerKind.EggLoss,
        ["alevin_loss"] = LedgerKind.AlevinLoss,
        ["fry_loss"] = LedgerKind.FryLoss,
        ["put_down"] = LedgerKind.PutDown,
        ["sampled"] = LedgerKind.Sampled,
        ["counted"] = LedgerKind.Counted,
    };

    [Theory, BothDatabases]
    public async Task The_files_give_what_was_added_up_by_hand(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        await EnterAsync(host, world.One);
        var client = await host.ClientAs(Role.ProgrammeLead, world.One);

        var csv = FilesOfTotals.Csv(await client.GetByteArrayAsync($"/totals/{Name}.csv"));
        var sheet = FilesOfTotals.Sheet(await client.GetByteArrayAsync($"/totals/{Name}.xlsx"), "Tanks");

        var expected = Read("totals.csv");
        Assert.Equal(12, expected.Count);
        Assert.Equal(expected.Select(r => r["tank"]), csv.Select(r => r["tank"]));
        foreach (var (byHand, i) in expected.Select((r, i) => (r, i)))
        {
            Assert.All(byHand, cell =>
            {
                Assert.Equal(cell.Value, csv[i][cell.Key]);
                Assert.Equal(cell.Value, sheet[i][cell.Key].Text);
            });
        }
    }

    [Fact]
    public async Task The_pooled_numbers_are_those_worked_out_by_hand()
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;
        await EnterAsync(host, world.One);

        var totals = await host.CallAsync<TotalsOfSeason, SeasonTotals?>(s => s.LoadAsync(world.One.Programme.Id, Name, CancellationToken.None));

        var named = NamedSurvivals.Over([.. totals!.Tanks.Select(t => t.Balance)]);
        Assert.Equal((11, 12, 1035, 1470), (named.EggToRelease.Finished, named.EggToRelease.Supplied, named.EggToRelease.Released, named.EggToRelease.Of));
        Assert.Equal(
            [70.41, 64.29, 70.41, 72.24, 79.47, 75.5, 89.15, 93.83],
            new[]
            {
                named.EggToRelease.Rate.Percent, named.EggToRelease.IfRestLost, named.EggToRelease.IfRestAverage, named.EggToRelease.IfRestAllLive,
                named.EggToHatch.Rate.Percent, named.EggToHatch.IfUnaccountedWereEggs.Percent, named.HatchToRelease.Rate.Percent, named.HatchToRelease.IfUnaccountedWereEggs.Percent,
            }.Select(p => Math.Round(p!.Value, 2)));
        Assert.Equal(["W003 + W004", "W005 + W006"], Groupings.Pools(totals).Where(g => g.Tanks.Count > 1).Select(g => g.Name));
        Assert.Equal([84.80, 77.89], Groupings.Pools(totals).Where(g => g.Tanks.Count > 1).Select(g => Math.Round(g.Pooled.Rate.Percent!.Value, 2)));
        Assert.Equal([("Footbridge", 426), ("Landing", 609)], Groupings.Sites(totals).Select(g => (g.Name, g.Fish)));
    }

    /// <summary>What a reader follows in the document is what is tested here.</summary>
    [Fact]
    public void The_document_holds_the_very_tables_of_this_test()
    {
        var document = File.ReadAllText(Path.Combine(Guards.SourceTree.Root, "docs", "worked-season.md"));

        Assert.All(["events.csv", "totals.csv"], file => Assert.All(
            File.ReadLines(PathOf(file)), line => Assert.Contains("| " + line.Replace(",", " | ", StringComparison.Ordinal) + " |", document, StringComparison.Ordinal)));
    }

    private static async Task EnterAsync(PortalHost host, TestProgramme one)
    {
        var season = new Season { Id = Guid.NewGuid(), ProgrammeId = one.Programme.Id, Name = Name, StartsOn = new DateOnly(2027, 9, 1), EndsOn = new DateOnly(2028, 7, 31) };
        var lots = new[] { ("RB9", Species.RainbowTrout), ("CK9", Species.ChinookSalmon) }.ToDictionary(l => l.Item1, l => new EggLot
        {
            Id = Guid.NewGuid(),
            ProgrammeId = one.Programme.Id,
            SeasonId = season.Id,
            Code = l.Item1,
            Species = l.Item2,
            FertilisedFrom = new DateOnly(2027, 12, 1),
            FertilisedTo = new DateOnly(2027, 12, 1),
            HatcheryMeanC = 9,
        });
        var landing = new ReleaseSite { Id = Guid.NewGuid(), ProgrammeId = one.Programme.Id, Name = "Landing", Water = one.Site.Water };
        var rows = Read("events.csv");
        var tanks = rows.Select(r => r["tank"]).Distinct().ToDictionary(code => code, code => new Tank
        {
            Id = Guid.NewGuid(),
            ProgrammeId = one.Programme.Id,
            ClassroomId = one.Rooms[0].Id,
            Code = code,
            Litres = 208,
            SetPointC = 10.5,
        });
        var books = new Books(season, lots, tanks, new() { ["Footbridge"] = one.Site, ["Landing"] = landing }, one.Permit);
        await host.SeedAsync(db => db.AddRange([season, landing, .. lots.Values, .. tanks.Values]));
        foreach (var row in rows)
        {
            // One after the other: a correction has to name the line that it takes back.
            await using var db = host.OpenDb();
            books.Enter(db, row);
            await db.SaveChangesAsync();
        }
    }

    private sealed record Books(Season Season, Dictionary<string, EggLot> Lots, Dictionary<string, Tank> Tanks, Dictionary<string, ReleaseSite> Sites, Permit Permit)
    {
        private int line;

        public void Enter(HatcheryDb db, Dictionary<string, string> row)
        {
            var at = DateTime.SpecifyKind(DateTime.Parse(row["day"], CultureInfo.InvariantCulture), DateTimeKind.Utc).AddHours(17).AddSeconds(++line);
            var tank = Tanks[row["tank"]];
            var count = int.Parse(row["count"], CultureInfo.InvariantCulture);
            switch (row["event"])
            {
                case "moved":
                    var move = Guid.NewGuid();
                    db.Ledger.AddRange(Line(tank, LedgerKind.TransferredOut, count, at, move: move), Line(Tanks[row["other"]], LedgerKind.TransferredIn, count, at, move: move));
                    break;
                case "closed":
                    db.Tanks.Single(t => t.Id == tank.Id).ClosedAt = at;
                    break;
                case "corrects_egg_loss":
                    var wrong = db.Ledger.Single(e => e.TankId == tank.Id && e.Kind == LedgerKind.EggLoss && e.Count == -count);
                    db.Ledger.Add(Line(tank, LedgerKind.EggLoss, count, wrong.At, corrects: wrong.Id));
                    break;
                case "released":
                    var release = new Release { Id = Guid.NewGuid(), SeasonId = Season.Id, TankId = tank.Id, SiteId = Sites[row["other"]].Id, PermitId = Permit.Id, At = at, Fish = count, EnteredAt = at };
                    db.Releases.Add(release);
                    db.Ledger.Add(Line(tank, LedgerKind.Released, count, at, release: release.Id));
                    break;
                case "withdrawn":
                    var back = db.Releases.Single(r => r.TankId == tank.Id && r.Fish == count);
                    back.WithdrawnAt = at;
                    db.Ledger.Add(Line(tank, LedgerKind.Released, -count, back.At, release: back.Id, corrects: db.Ledger.Single(e => e.ReleaseId == back.Id).Id));
                    break;
                default:
                    if (row["event"] == "received")
                    {
                        db.Receipts.Add(new Receipt { Id = Guid.NewGuid(), SeasonId = Season.Id, TankId = tank.Id, LotId = Lots[row["other"]].Id, At = at, Eggs = count, CountedBy = CountMethod.Photo });
                    }

                    db.Ledger.Add(Line(tank, Kinds[row["event"]], count, at));
                    break;
            }
        }

        private LedgerEntry Line(Tank tank, LedgerKind kind, int count, DateTime at, Guid? move = null, Guid? release = null, long? corrects = null) => new()
        {
            SeasonId = Season.Id,
            TankId = tank.Id,
            Kind = kind,
            Count = count,
            At = at,
            EnteredAt = at,
            TransferId = move,
            ReleaseId = release,
            CorrectsId = corrects,
        };
    }

    private static string PathOf(string file) => Path.Combine(Guards.SourceTree.Root, "tests", "Tankside.Portal.Tests", "Releases", "WorkedSeason", file);

    private static List<Dictionary<string, string>> Read(string file)
    {
        var lines = File.ReadAllLines(PathOf(file)).Select(l => l.Split(',')).ToList();
        return [.. lines.Skip(1).Select(cells => lines[0].Zip(cells).ToDictionary(c => c.First, c => c.Second))];
    }
}
