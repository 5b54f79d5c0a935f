using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Portal.Flags;
using Tankside.Portal.Tests.Accounts;
using Tankside.Portal.Tests.Shell;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Flags.Texts;

/// <summary>First aid in a programme's own words: at every door, in both languages, nowhere else, and never without its cautions.</summary>
public class OwnAidTests
{
    private const string Address = "/settings/texts/warm";

    private static Dictionary<string, string> Words => new()
    {
        ["Input.StepsEn"] = "1. Ring the depot in Alder for ice.\n2. Hold the water under {warmest}.",
        ["Input.StepsEs"] = "1. Llame al depósito de Alder por hielo.\n2. Mantenga el agua por debajo de {warmest}.",
        ["Input.AskEn"] = "Is the blind down at tank {tank}?",
        ["Input.AskEs"] = "¿Está baja la persiana del tanque {tank}?",
        ["Input.ClassEn"] = "the tank feels warm",
        ["Input.ClassEs"] = "el tanque está tibio",
    };

    private static async Task<(PortalHost Host, TestWorld World, HttpClient Lead)> CreateAsync(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await host.SeedAsync(db => db.AddRange(WarmFlag(host, world.One), WarmFlag(host, world.Two)));
        return (host, world, await host.ClientAs(Role.ProgrammeLead, world.One));
    }

    private static Flag WarmFlag(PortalHost host, TestProgramme of) => new()
    {
        Id = Guid.NewGuid(),
        ProgrammeId = of.Programme.Id,
        TankId = of.Tanks[0].Id,
        Kind = FlagKind.Warm,
        State = FlagState.Open,
        Urgency = Urgency.ActNow,
        OpenedAt = host.Now,
        UpdatedAt = host.Now,
        StandsOn = host.Now,
        Evidence = new TemperatureEvidence(LifeStage.Alevin, 16.1, host.Now, 15, host.Now, 10.5),
        Hazard = Hazard.Around(host.Now, 24, 0.3),
        RuleVersion = "test",
        Turn = 1,
    };

    [Theory, BothDatabases]
    public async Task It_is_said_on_the_call_the_tank_the_class_page_the_cards_and_in_the_message_and_in_no_other_programme(DatabaseKind kind)
    {
        var (host, world, lead) = await CreateAsync(kind);
        await using var _ = host;
        await lead.PostFormAsync(Address, Words, "words");

        const string english = "Ring the depot in Alder for ice.", spanish = "Llame al depósito de Alder por hielo.", held = "Hold the water under 54 °F (12.2 °C).";
        var call = await (await host.ClientAs(Role.Coordinator, world.One)).ReadAsync($"/round?tank={world.One.Tanks[0].Code}");
        Assert.All((string[])[english, held, "Is the blind down at tank A001?", "The first 2 steps are your programme’s own.", "An adult with dry hands"], said => Assert.Contains(said, call, StringComparison.Ordinal));
        var tank = await (await host.ClientAs(Role.Teacher, world.One)).ReadAsync("/tanks/A001");
        Assert.All((string[])[english, held, "Lid on, lights off"], said => Assert.Contains(said, tank, StringComparison.Ordinal));
        var label = $"/t/{world.One.RoomCodes[0].Code}/help?sign=warm&lang=";
        Assert.Contains(english, await host.Anonymous().ReadAsync(label + "en"), StringComparison.Ordinal);
        Assert.Contains(spanish, await host.Anonymous().ReadAsync(label + "es"), StringComparison.Ordinal);
        var card = Assert.Single((await PrintedPdf.GetAsync(await host.ClientAs(Role.Teacher, world.One), "/tanks/A001/cards/caretaker.pdf?lang=en")).Pages);
        Assert.Contains("Ring the depot in Alder", card.Text.Replace('\n', ' '), StringComparison.Ordinal);

        var flag = (await host.FlagsAsync(FlagKind.Warm)).Single(f => f.ProgrammeId == world.One.Programme.Id);
        var by = new CurrentUser(world.One.People[Role.Coordinator].Id, world.One.Programme.Id, Role.Coordinator, null);
        Assert.IsType<ActOutcome.Done>(await host.CallAsync<SendFirstAid, ActOutcome>(send => send.SendAsync(flag.Id, 1, by, CancellationToken.None)));
        await using var db = host.OpenDb();
        var letter = await db.OutgoingLetters.SingleAsync();
        Assert.Contains($"1. {english}\n2. {held}\n3. ", letter.Text, StringComparison.Ordinal);
        var theirs = await (await host.ClientAs(Role.Coordinator, world.Two)).ReadAsync($"/round?tank={world.Two.Tanks[0].Code}");
        Assert.DoesNotContain("Alder", theirs, StringComparison.Ordinal);
        Assert.Contains("Lid on, lights off", theirs, StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task Said_instead_ours_are_gone_the_cautions_are_not_and_the_record_tells_before_and_after(DatabaseKind kind)
    {
        var (host, world, lead) = await CreateAsync(kind);
        await using var _ = host;
        await lead.PostFormAsync(Address, Words, "words");
        await lead.PostFormAsync(Address, new Dictionary<string, string> { ["Input.Place"] = "instead", ["Input.AskEn"] = "Is the curtain shut?" }, "words");

        var tank = await (await host.ClientAs(Role.Teacher, world.One)).ReadAsync("/tanks/A001");
        Assert.DoesNotContain("Lid on, lights off", tank, StringComparison.Ordinal);
        Assert.All((string[])["Ring the depot in Alder", "An adult with dry hands does everything at plugs", "No medicine", "do as they say"], said => Assert.Contains(said, tank, StringComparison.Ordinal));
        var changes = await lead.ReadAsync("/changes?what=OwnText");
        Assert.Contains("in English: Is the blind down at tank {tank}? → Is the curtain shut?", changes, StringComparison.Ordinal);
        Assert.Contains("first aid for warm water: the question", changes, StringComparison.Ordinal);
        Assert.Contains("steps instead of ours", await lead.ReadAsync("/settings/texts"), StringComparison.Ordinal);

        await lead.PostFormAsync(Address, new Dictionary<string, string>(), "ours");

        Assert.Contains("Lid on, lights off", await (await host.ClientAs(Role.Teacher, world.One)).ReadAsync("/tanks/A001"), StringComparison.Ordinal);
        Assert.Contains("no longer Is the curtain shut?", await lead.ReadAsync(Address), StringComparison.Ordinal);
        await using var db = host.OpenDb();
        Assert.False(await db.OwnTexts.AnyAsync());
    }

    [Theory, BothDatabases]
    public async Task Of_two_who_write_at_once_the_second_reads_what_the_first_kept_and_loses_nothing(DatabaseKind kind)
    {
        var (host, _, lead) = await CreateAsync(kind);
        await using var _1 = host;
        var late = await lead.OpenFormAsync(Address, new Dictionary<string, string> { ["Input.AskEn"] = "Is it late?", ["Input.AskEs"] = "¿Es tarde?" }, "words");
        await lead.PostFormAsync(Address, Words, "words");

        var answer = await (await late()).WordsAsync();

        Assert.Contains("Somebody changed these words meanwhile", answer, StringComparison.Ordinal);
        Assert.Contains("Is the blind down at tank {tank}?", answer, StringComparison.Ordinal);
        Assert.Contains("value=\"Is it late?\"", await (await late()).Content.ReadAsStringAsync(), StringComparison.Ordinal);
        await using var db = host.OpenDb();
        Assert.Equal("Is the blind down at tank {tank}?", (await db.OwnTexts.SingleAsync(t => t.Key == "aid.warm.ask")).En);
    }

    [Theory, BothDatabases]
    public async Task What_cannot_be_said_is_refused_with_the_reason_and_looking_keeps_nothing(DatabaseKind kind)
    {
        var (host, world, lead) = await CreateAsync(kind);
        await using var _ = host;
        async Task<string> Try(string field, string value) =>
            await (await lead.PostFormAsync(Address, new Dictionary<string, string>(Words) { [field] = value }, "words")).WordsAsync();

        Assert.Contains("Write it in both languages", await Try("Input.AskEs", " "), StringComparison.Ordinal);
        Assert.Contains("the same steps in both languages: English has 2, Spanish 1", await Try("Input.StepsEs", "Uno"), StringComparison.Ordinal);
        Assert.Contains("Step 2: at most 160 letters, please; these are 161.", await Try("Input.StepsEn", $"One\n{new string('x', 161)}"), StringComparison.Ordinal);
        Assert.Contains("At most 8 steps, please; these are 9.", await Try("Input.StepsEn", string.Join('\n', Enumerable.Repeat("Step", 9))), StringComparison.Ordinal);
        Assert.Contains("{pupil} is not known here. The known ones are {tank}", await Try("Input.AskEn", "Who is {pupil}?"), StringComparison.Ordinal);
        Assert.Contains("No braces here", await Try("Input.ClassEn", "it is {water now}"), StringComparison.Ordinal);
        var looked = await (await lead.PostFormAsync(Address, new Dictionary<string, string>(Words) { ["Input.Do"] = "look", ["Input.Shown"] = "A001" }, "words")).WordsAsync();
        Assert.Contains("As it would be said: nothing is kept yet, tank A001", looked, StringComparison.Ordinal);
        Assert.All((string[])["Hold the water under 54 °F (12.2 °C).", "Tell your teacher now: the tank feels warm. Do not touch any plug.", "el tanque está tibio"], said => Assert.Contains(said, looked, StringComparison.Ordinal));
        var coordinator = await host.ClientAs(Role.Coordinator, world.One);
        await coordinator.PostFormAsync(Address, Words, "words");
        Assert.Contains("The programme lead sets it.", await coordinator.ReadAsync(Address), StringComparison.Ordinal);
        await using var db = host.OpenDb();
        Assert.False(await db.OwnTexts.AnyAsync());
    }
}
