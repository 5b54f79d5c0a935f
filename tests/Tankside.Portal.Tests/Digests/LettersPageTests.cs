using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts.Mail;
using Tankside.Portal.Tests.Accounts;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Digests;

/// <summary>The lead sees what became of the mails and has the word on those that nobody is sure of.</summary>
public class LettersPageTests
{
    [Theory, BothDatabases]
    public async Task An_unsure_letter_is_sent_again_only_on_the_leads_word(DatabaseKind kind)
    {
        var sink = new MailSink();
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind, sink.Settings);
        await using var _ = host;
        await host.WriteLetterAsync(world.One, "a");
        await host.SeedAsync(db =>
        {
            var letter = db.OutgoingLetters.Single();
            (letter.State, letter.Attempts, letter.Trouble) = (LetterState.Unsure, 1, LetterTroubles.PortalStopped);
        });
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);
        Assert.Equal(0, await host.SendLettersAsync());
        var words = await lead.WordsAsync("/letters");
        Assert.Contains("Of 1 letter nobody can say whether it went.", words, StringComparison.Ordinal);
        Assert.Contains("About a", words, StringComparison.Ordinal);

        var told = await SendAgainAsync(lead, (await host.LettersAsync())[0].Id);
        Assert.Contains("on its way again", told, StringComparison.Ordinal);
        Assert.Equal(1, await host.SendLettersAsync());

        Assert.Equal("About a", (await sink.NextAsync()).Subject);
        Assert.Contains("Every letter went out.", await lead.WordsAsync("/letters"), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task A_letter_that_went_is_not_sent_twice_by_an_old_page_nor_by_another_programme(DatabaseKind kind)
    {
        var sink = new MailSink();
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind, sink.Settings);
        await using var _ = host;
        await host.WriteLetterAsync(world.One, "a");
        await host.WriteLetterAsync(world.Two, "b", host.Now.AddHours(1));
        await host.SendLettersAsync();
        await host.SeedAsync(db => db.OutgoingLetters.Single(l => l.Key == "b").State = LetterState.Unsure);
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);
        Assert.DoesNotContain("About b", await lead.WordsAsync("/letters"), StringComparison.Ordinal);

        foreach (var letter in await host.LettersAsync())
        {
            Assert.Contains("Nothing was changed", await SendAgainAsync(lead, letter.Id), StringComparison.Ordinal);
        }

        Assert.Equal([LetterState.Sent, LetterState.Unsure], (await host.LettersAsync()).Select(l => l.State));
    }

    [Fact]
    public async Task Before_the_first_mail_the_page_says_when_it_comes()
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite);
        await using var _ = host;

        Assert.Contains("No mail yet.", await (await host.ClientAs(Role.ProgrammeLead, world.One)).WordsAsync("/letters"), StringComparison.Ordinal);
    }

    private static async Task<string> SendAgainAsync(HttpClient lead, Guid letter)
    {
        var sent = await lead.PostFormAsync("/letters", new Dictionary<string, string> { ["Letter"] = letter.ToString() }, "again");
        return await (await lead.GetAsync(sent.Headers.Location)).WordsAsync();
    }
}
