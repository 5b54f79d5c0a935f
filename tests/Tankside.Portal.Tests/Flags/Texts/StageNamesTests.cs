using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Flags;
using Tankside.Portal.Tests.Accounts;
using Tankside.Portal.Tests.Readings;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Flags.Texts;

/// <summary>A programme may call a stage otherwise, and it is called so wherever it is said.</summary>
public class StageNamesTests
{
    private const string Address = "/settings/stages/alevin";

    private static Dictionary<string, string> SacFry => new()
    {
        ["Input.OneEn"] = "sac fry",
        ["Input.ManyEn"] = "sac fry",
        ["Input.OneEs"] = "pez con saco",
        ["Input.ManyEs"] = "peces con saco",
    };

    private static StageNames Named(params (string Key, string En, string Es)[] own) =>
        StageNames.Of(new OwnTexts(own.Select(o => new OwnText { Key = o.Key, En = o.En, Es = o.Es })));

    [Theory]
    [InlineData("Alevins: swim-up soon. Each alevin rests; fry swim.", "en", "Sac fry: swim-up soon. Each sac fry rests; parr swim.")]
    [InlineData("Los alevines y un alevín; las crías.", "es", "Los peces con saco y un pez con saco; las crías.")]
    [InlineData("The alevinlike frying of eggs", "en", "The alevinlike frying of eggs")]
    public void Names_are_put_in_for_whole_words_all_at_once(string text, string language, string said) => Assert.Equal(said, Named(
        ("stage.alevin.one", "sac fry", "pez con saco"), ("stage.alevin.many", "sac fry", "peces con saco"), ("stage.fry.one", "parr", "cría"), ("stage.fry.many", "parr", "crías")).In(text, language));

    [Theory, BothDatabases]
    public async Task A_stage_is_called_so_on_the_tank_in_the_call_and_for_the_class_and_by_no_other_programme(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        foreach (var tank in new[] { world.One.Tanks[0], world.Two.Tanks[0] })
        {
            await host.AcceptAsync(Sent.Seen(tank, host.Now.AddHours(-1), new Observation { Hatched = Share.All }), Sent.Water(tank, host.Now, 16.5));
        }

        await host.JudgeAsync();
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);
        await lead.PostFormAsync(Address, SacFry, "name");

        Assert.Contains("Alevins are called sac fry now, in Spanish peces con saco.", await lead.ReadAsync(Address), StringComparison.Ordinal);
        var tankPage = await (await host.ClientAs(Role.Teacher, world.One)).ReadAsync("/tanks/A001");
        Assert.Contains("Sac fry: ", tankPage, StringComparison.Ordinal);
        Assert.Contains("limit for sac fry", tankPage, StringComparison.Ordinal);
        Assert.DoesNotContain("alevin", tankPage, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("limit for sac fry", await (await host.ClientAs(Role.Coordinator, world.One)).ReadAsync("/round?tank=A001"), StringComparison.Ordinal);
        var help = $"/t/{world.One.RoomCodes[0].Code}/help?sign=dead&lang=";
        Assert.Contains("peces con saco", await host.Anonymous().ReadAsync(help + "es"), StringComparison.Ordinal);
        Assert.Contains("limit for alevins", await (await host.ClientAs(Role.Coordinator, world.Two)).ReadAsync($"/round?tank={world.Two.Tanks[0].Code}"), StringComparison.Ordinal);
        Assert.Contains("name of alevins, many", await lead.ReadAsync("/changes?word=alevins"), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task A_class_reads_the_name_in_its_questions_and_ours_again_when_the_lead_gives_it_up(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);
        const string eggs = "/settings/stages/egg";
        var late = await lead.OpenFormAsync(eggs, new Dictionary<string, string> { ["Input.ManyEn"] = "ova" }, "name");
        await lead.PostFormAsync(eggs, new Dictionary<string, string> { ["Input.OneEn"] = "eyed egg", ["Input.ManyEn"] = "eyed eggs", ["Input.OneEs"] = "huevo con ojos", ["Input.ManyEs"] = "huevos con ojos" }, "name");

        var page = $"/t/{world.One.RoomCodes[0].Code}?lang=";
        Assert.Contains("Any dead eyed eggs today?", await host.Anonymous().ReadAsync(page + "en"), StringComparison.Ordinal);
        Assert.Contains("¿Hay huevos con ojos muertos hoy?", await host.Anonymous().ReadAsync(page + "es"), StringComparison.Ordinal);
        Assert.Contains("Any dead eggs today?", await host.Anonymous().ReadAsync($"/t/{world.Two.RoomCodes[0].Code}?lang=en"), StringComparison.Ordinal);
        Assert.Contains("Somebody changed this name meanwhile: it is now eyed egg, eyed eggs", await (await late()).WordsAsync(), StringComparison.Ordinal);

        await lead.PostFormAsync(eggs, new Dictionary<string, string>(), "ours");

        Assert.Contains("Any dead eggs today?", await host.Anonymous().ReadAsync(page + "en"), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task A_name_that_is_none_or_that_another_stage_has_is_refused(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);
        async Task<string> Try(string field, string value) =>
            await (await lead.PostFormAsync(Address, new Dictionary<string, string>(SacFry) { [field] = value }, "name")).WordsAsync();

        Assert.Contains("Give the name in both languages.", await Try("Input.ManyEs", ""), StringComparison.Ordinal);
        Assert.Contains("At most 30 letters, please; these are 31.", await Try("Input.OneEn", new string('x', 31)), StringComparison.Ordinal);
        Assert.Contains("Letters, spaces and hyphens only", await Try("Input.ManyEn", "stage {2}"), StringComparison.Ordinal);
        Assert.Contains("Another stage has this name", await Try("Input.ManyEn", "Fry"), StringComparison.Ordinal);
        await (await host.ClientAs(Role.Coordinator, world.One)).PostFormAsync(Address, SacFry, "name");
        await using var db = host.OpenDb();
        Assert.False(await db.OwnTexts.AnyAsync());
    }
}
