using Microsoft.EntityFrameworkCore;
using MimeKit;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts.Mail;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Accounts;

/// <summary>Addresses that take no mail: told at the server's door, or by a report that comes later.</summary>
public class BounceTests
{
    private static readonly DateTime Afternoon = TestWorld.Now.AddHours(7);

    [Theory, BothDatabases]
    public async Task An_address_refused_at_the_door_is_marked_and_a_letter_that_goes_through_clears_it(DatabaseKind kind)
    {
        await using var server = new MailServer();
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind, new PortalHostSettings { Keys = server.Keys, Now = Afternoon });
        await using var _ = host;
        var person = world.One.People[Role.Coordinator];
        server.NoSuchBox[person.Email!] = "5.1.1 no such box";
        await host.WriteLetterAsync(world.One, "a");
        await host.SendLettersAsync();

        var letter = Assert.Single(await host.LettersAsync());
        Assert.Equal((LetterState.Bounced, LetterTroubles.Bounced("5.1.1")), (letter.State, letter.Trouble));
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);
        Assert.Contains("1 letter bounced", await lead.WordsAsync("/letters"), StringComparison.Ordinal);
        Assert.Contains($"{person.Name} , since", await lead.WordsAsync("/letters"), StringComparison.Ordinal);
        Assert.Contains("takes no mail since 3 February 2027", await lead.WordsAsync("/people"), StringComparison.Ordinal);

        server.NoSuchBox.Clear();
        await host.WriteLetterAsync(world.One, "b");
        await host.SendLettersAsync();
        Assert.DoesNotContain("takes no mail", await lead.WordsAsync("/people"), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task A_report_that_comes_later_marks_its_letter_and_the_address(DatabaseKind kind)
    {
        await using var server = new MailServer();
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind, new PortalHostSettings { Keys = server.Keys, Now = Afternoon });
        await using var _ = host;
        await host.WriteLetterAsync(world.One, "a");
        await host.WriteLetterAsync(world.One, "b");
        await host.SendLettersAsync();
        var first = (await host.LettersAsync())[0];

        Assert.Equal(ReportTaken.Delayed, await TakeAsync(host, Report(first.To, "delayed", "4.4.1", first.Id)));
        Assert.Equal(ReportTaken.RefusedForGood, await TakeAsync(host, Report(first.To, "failed", "5.1.1", first.Id)));
        Assert.Equal(ReportTaken.RefusedForGood, await TakeAsync(host, Report(first.To, "failed", "5.1.1", first.Id)));
        Assert.Equal(ReportTaken.NotOurs, await TakeAsync(host, Report(first.To, "failed", "5.1.1", Guid.NewGuid())));

        Assert.Equal([LetterState.Bounced, LetterState.Sent], (await host.LettersAsync()).Select(l => l.State));
        await using var db = host.OpenDb();
        var mark = await db.RefusedAddresses.SingleAsync();
        Assert.Equal((RefusedAddress.Key(first.To), "5.1.1", host.Now), (mark.Address, mark.Code, mark.Since));
    }

    [Theory]
    [InlineData("failed", "5.7.1")]
    [InlineData("failed", "4.4.7")]
    public async Task A_letter_that_failed_for_another_reason_leaves_the_address_free(string action, string status)
    {
        await using var server = new MailServer();
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite, new PortalHostSettings { Keys = server.Keys, Now = Afternoon });
        await using var _ = host;
        await host.WriteLetterAsync(world.One, "a");
        await host.SendLettersAsync();
        var letter = Assert.Single(await host.LettersAsync());

        Assert.Equal(ReportTaken.NotDelivered, await TakeAsync(host, Report(letter.To.ToUpperInvariant(), action, status, null)));

        Assert.Equal(LetterTroubles.NotDelivered(status), Assert.Single(await host.LettersAsync()).Trouble);
        await using var db = host.OpenDb();
        Assert.False(await db.RefusedAddresses.AnyAsync());
    }

    /// <summary>The reports that RFC 3464 prints as its examples, appendix E.</summary>
    [Fact]
    public void The_examples_of_the_standard_are_read_as_it_means_them()
    {
        Assert.Equal(
            new ReportedDelivery(null, "louisl@larry.slip.umd.edu", "failed", new EnhancedStatus(4, 0, 0)),
            Assert.Single(Read("""
                Reporting-MTA: dns; cs.utk.edu

                Original-Recipient: rfc822;louisl@larry.slip.umd.edu
                Final-Recipient: rfc822;louisl@larry.slip.umd.edu
                Action: failed
                Status: 4.0.0
                Diagnostic-Code: smtp; 426 connection timed out
                Last-Attempt-Date: Thu, 7 Jul 1994 17:15:49 -0400
                """)));
        Assert.Equal(
            (ReportedDelivery[])[
                new(null, "arathib@vnet.ibm.com", "failed", new EnhancedStatus(5, 0, 0)),
                new(null, "johnh@hpnjld.njd.hp.com", "delayed", new EnhancedStatus(4, 0, 0)),
                new(null, "wsnell@sdcc13.ucsd.edu", "failed", new EnhancedStatus(5, 0, 0)),
            ],
            Read("""
                Reporting-MTA: dns; cs.utk.edu

                Original-Recipient: rfc822;arathib@vnet.ibm.com
                Final-Recipient: rfc822;arathib@vnet.ibm.com
                Action: failed
                Status: 5.0.0 (permanent failure)
                Diagnostic-Code: smtp; 550 'arathib@vnet.IBM.COM' is not a
                 registered gateway user
                Remote-MTA: dns; vnet.ibm.com

                Original-Recipient: rfc822;johnh@hpnjld.njd.hp.com
                Final-Recipient: rfc822;johnh@hpnjld.njd.hp.com
                Action: delayed
                Status: 4.0.0 (hpnjld.njd.jp.com: host name lookup failure)

                Original-Recipient: rfc822;wsnell@sdcc13.ucsd.edu
                Final-Recipient: rfc822;wsnell@sdcc13.ucsd.edu
                Action: failed
                Status: 5.0.0
                Diagnostic-Code: smtp; 550 user unknown
                Remote-MTA: dns; sdcc13.ucsd.edu
                """));
        Assert.Equal(
            new ReportedDelivery(null, null, "failed", new EnhancedStatus(5, 0, 0)),
            Assert.Single(Read("""
                Reporting-MTA: mailbus; SYS30

                Final-Recipient: unknown; nair_s
                Status: 5.0.0 (unknown permanent failure)
                Action: failed
                """)));
        Assert.Equal("delayed", Assert.Single(Read("""
            Reporting-MTA: dns; sun2.nsfnet-relay.ac.uk

            Final-Recipient: rfc822;thomas@de-montfort.ac.uk
            Status: 4.0.0 (unknown temporary failure)
            Action: delayed
            """)).Action);
    }

    [Theory]
    [InlineData(550, "5.1.1 no such box", "5.1.1")]
    [InlineData(550, "no such box here", "550")]
    [InlineData(550, "no such box at [192.5.1.1]", "550")]
    [InlineData(554, "5.7.1 relay access denied", null)]
    [InlineData(552, "5.2.3 too long", null)]
    [InlineData(530, "sign in first", null)]
    [InlineData(450, "4.2.1 greylisted", null)]
    public void Only_an_answer_about_the_address_marks_it(int reply, string words, string? code) => Assert.Equal(code, RefusalForGood.Code(reply, words));

    private static IReadOnlyList<ReportedDelivery> Read(string groups)
    {
        using var message = Message(groups, null);
        return DeliveryReports.Read(message);
    }

    private static MimeMessage Report(string address, string action, string status, Guid? letter) =>
        Message($"Reporting-MTA: dns; mail.example.test\n\nFinal-Recipient: rfc822; {address}\nAction: {action}\nStatus: {status}\n", letter);

    private static MimeMessage Message(string groups, Guid? letter)
    {
        var returned = letter is { } id ? $"--b\nContent-Type: text/rfc822-headers\n\nMessage-ID: <{id:N}@example.test>\nSubject: About a\n\n" : "";
        var text = $"""
            From: Mail Delivery Subsystem <postmaster@example.test>
            To: tankside@example.test
            MIME-Version: 1.0
            Content-Type: multipart/report; report-type=delivery-status; boundary="b"

            --b
            Content-Type: text/plain

            It could not be delivered.

            --b
            Content-Type: message/delivery-status

            {groups}

            {returned}--b--

            """;
        return MimeMessage.Load(new MemoryStream(System.Text.Encoding.ASCII.GetBytes(text.ReplaceLineEndings("\r\n"))));
    }

    private static async Task<ReportTaken> TakeAsync(PortalHost host, MimeMessage message)
    {
        using (message)
        {
            return Assert.Single(await host.CallAsync<TakeReports, IReadOnlyList<(ReportedDelivery Report, ReportTaken Taken)>>(t => t.HandleAsync(message, CancellationToken.None))).Taken;
        }
    }
}
