using System.Net;
using System.Text.RegularExpressions;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Portal.Flags.Changes;
using Tankside.Portal.Flags.Numbers;
using Tankside.Portal.Tests.Accounts;
using Tankside.Portal.Tests.People;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Flags.Numbers;

/// <summary>A programme's own numbers, and the record of who set them.</summary>
public partial class SettingsTests
{
    [Fact]
    public void Every_number_has_words_and_every_word_a_number()
    {
        var words = NumberWords.Groups.SelectMany(g => g.Numbers).ToList();

        Assert.Equal(ProgrammeNumbers.All.Select(s => s.Key).Order(StringComparer.Ordinal), words.Select(w => w.Key).Order(StringComparer.Ordinal));
        Assert.Empty(words.Where(w => w.Name.Length == 0 || !w.Changes.EndsWith('.')).Select(w => w.Key));
    }

    [Fact]
    public void Every_audited_kind_has_a_word() =>
        Assert.Equal(Audited.Types.Select(t => t.Name).Order(StringComparer.Ordinal), ChangeWords.Kinds.Keys.Order(StringComparer.Ordinal));

    [Theory, BothDatabases]
    public async Task Each_setting_changed_on_its_page_stands_in_the_record_with_before_and_after(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);
        var token = Token().Match(await lead.GetStringAsync("/settings/warm.look.egg")).Groups[1].Value;
        var wanted = new Dictionary<string, string>();
        foreach (var setting in ProgrammeNumbers.All)
        {
            var own = wanted.ToDictionary(w => w.Key, w => double.Parse(w.Value, System.Globalization.CultureInfo.InvariantCulture));
            var value = NumberFigures.Of(Another(setting, new LimitSet(own)));
            var form = new FormUrlEncodedContent(new Dictionary<string, string>
            {
                ["_handler"] = "set",
                ["__RequestVerificationToken"] = token,
                ["Input.Value"] = value,
                ["Input.Seen"] = "",
                ["Input.Version"] = "0",
            });
            var answer = await lead.PostAsync($"/settings/{setting.Key}", form);
            Assert.True(answer.StatusCode is HttpStatusCode.Found or HttpStatusCode.SeeOther, $"{setting.Key} to {value}: {answer.StatusCode}");
            wanted[setting.Key] = value;
        }

        await using var db = host.OpenDb();
        var changes = await db.Changes.AsNoTracking().Where(c => c.What == nameof(ProgrammeSetting)).ToListAsync();
        Assert.Equal(ProgrammeNumbers.All.Count, changes.Count);
        Assert.All(changes, c => Assert.Equal((world.One.Programme.Id, (Guid?)world.One.People[Role.ProgrammeLead].Id), (c.ProgrammeId, c.By)));
        var told = changes.ToDictionary(c => c.Which, c => c.Read().Single());
        Assert.All(ProgrammeNumbers.All, s => Assert.Equal(
            (NumberFigures.Of(s.Default), wanted[s.Key]),
            (Plain(told[s.Key].Before), Plain(told[s.Key].After))));
        Assert.True(await db.UnjudgedFacts.AnyAsync());
    }

    [Theory, BothDatabases]
    public async Task Two_leads_never_overwrite_each_other_unseen_and_a_number_goes_back_to_its_default(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);
        const string address = "/settings/warm.look.fry";
        var late = await lead.OpenFormAsync(address, new Dictionary<string, string> { ["Input.Value"] = "16" }, "set");
        await lead.PostFormAsync(address, new Dictionary<string, string> { ["Input.Value"] = "17" }, "set");

        Assert.Contains("Somebody changed this number meanwhile: it is now 17 °C.", await (await late()).WordsAsync(), StringComparison.Ordinal);
        Assert.Contains("It may not be over “Fry warm: act”, which is 18.3", await (await lead.PostFormAsync(address, new Dictionary<string, string> { ["Input.Value"] = "19" }, "set")).WordsAsync(), StringComparison.Ordinal);
        Assert.Contains("One setting lies apart from its default.", await lead.WordsAsync("/settings"), StringComparison.Ordinal);
        await lead.PostFormAsync(address, new Dictionary<string, string>(), "default");

        Assert.Contains("uses the default of every setting", await lead.WordsAsync("/settings"), StringComparison.Ordinal);
        Assert.Contains("value: 17 → 15.6", await lead.WordsAsync("/changes?word=fry+warm"), StringComparison.Ordinal);
        Assert.Contains("value: 15.6 → 17", await lead.GetStringAsync("/changes.csv"), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task A_coordinator_reads_settings_and_changes_but_sets_nothing_and_reads_nothing_of_people(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);
        var coordinator = await host.ClientAs(Role.Coordinator, world.One);
        await lead.PostFormAsync("/people", PeopleSteps.Invitation("new@example.test", Role.Coordinator, null), "invite");
        await lead.PostFormAsync("/settings/programme", new Dictionary<string, string> { ["Input.Name"] = "Upper Basin" }, "programme");
        await coordinator.PostFormAsync("/settings/warm.look.fry", new Dictionary<string, string> { ["Input.Value"] = "16" }, "set");

        Assert.Contains("Invitation", await lead.WordsAsync("/changes"), StringComparison.Ordinal);
        var read = await coordinator.WordsAsync("/changes");
        Assert.Contains("Upper Basin", read, StringComparison.Ordinal);
        Assert.DoesNotContain("Invitation", read, StringComparison.Ordinal);
        await using var db = host.OpenDb();
        Assert.False(await db.Settings.AnyAsync());
        Assert.DoesNotContain(await db.Changes.Select(c => c.Fields + c.Name).ToListAsync(), t => t.Contains("example.test", StringComparison.Ordinal));
    }

    /// <summary>A value near the one that holds, which may be set beside the others.</summary>
    private static double Another(Setting setting, LimitSet now) => new[] { 1.01, 0.99, 1.001, 0.999 }.Select(f => Math.Round(setting.Default * f, 10))
        .Concat([setting.Default + 1, setting.Default - 1, setting.Default + 0.001])
        .First(v => v != setting.Default && SettingOrder.Check(setting, v, now) is null);

    private static string Plain(string? value) => NumberFigures.Of(double.Parse(value!, System.Globalization.CultureInfo.InvariantCulture));

    [GeneratedRegex("name=\"__RequestVerificationToken\" value=\"([^\"]+)\"")]
    private static partial Regex Token();
}
