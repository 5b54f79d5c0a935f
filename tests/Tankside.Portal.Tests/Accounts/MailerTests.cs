using System.Globalization;
using Microsoft.Extensions.Logging.Abstractions;
using Microsoft.Extensions.Time.Testing;
using MimeKit;
using Tankside.Hatchery.People;
using Tankside.Portal.Accounts.Mail;
using Tankside.Portal.Shell;
using Tankside.Portal.Tests.People;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Accounts;

/// <summary>Letters on their way: through a mail server that listens on this machine, through one that is not there, and into files.</summary>
public class MailerTests
{
    private static readonly Letter Sample = new("åsa@example.test", "Grüße vom Bach", "Gravel, water, eggs.");

    [Fact]
    public async Task An_invitation_arrives_at_the_mail_server()
    {
        await using var server = new MailServer();
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite, new PortalHostSettings { Keys = server.Keys });
        await using var _ = host;
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);

        var told = await lead.InviteAsync("new.coordinator@example.test", Role.Coordinator);
        var message = await server.NextAsync();

        Assert.Contains("is mailed", await told.NoticeAsync(), StringComparison.Ordinal);
        Assert.Equal("new.coordinator@example.test", Assert.Single(message.To.Mailboxes).Address);
        Assert.Equal("tankside@example.test", Assert.Single(message.From.Mailboxes).Address);
        Assert.Equal("Your invitation to Reed Valley", message.Subject);
        Assert.Equal(host.Time.GetUtcNow(), message.Date);
        Assert.Contains(PortalHost.PublicUrl.TrimEnd('/') + await told.LinkToHandOnAsync(), message.TextBody, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_mail_server_that_is_not_there_is_never_told_as_sent()
    {
        var keys = new Dictionary<string, string> { ["Tankside:Mail:Host"] = "127.0.0.1", ["Tankside:Mail:Port"] = Text(Loopback.FreePort()) };
        var (host, world) = await PortalHost.CreateWithWorldAsync(DatabaseKind.Sqlite, new PortalHostSettings { Keys = keys });
        await using var _ = host;
        var lead = await host.ClientAs(Role.ProgrammeLead, world.One);

        var told = await lead.InviteAsync("new.coordinator@example.test", Role.Coordinator);

        Assert.Contains("could not be sent", await told.NoticeAsync(), StringComparison.Ordinal);
        Assert.NotNull(await told.LinkToHandOnAsync());
    }

    [Fact]
    public async Task Without_a_mail_server_a_letter_is_kept_as_a_file()
    {
        var folder = Directory.CreateTempSubdirectory("tankside-mail-");
        try
        {
            var outcome = await new FileMailer(Options(folder.FullName), new FakeTimeProvider(), NullLogger<FileMailer>.Instance).SendAsync(Sample, CancellationToken.None);

            var message = await MimeMessage.LoadAsync(Assert.Single(folder.GetFiles("mail/*.eml")).FullName);
            Assert.Equal(MailOutcome.KeptAsFile, outcome);
            Assert.Equal(Sample.Subject, message.Subject);
            Assert.Equal(Sample.Text, message.TextBody!.Trim());
            Assert.EndsWith("@example.test", message.MessageId, StringComparison.Ordinal);
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    [Fact]
    public async Task A_line_break_in_a_subject_makes_no_header_and_one_in_an_address_no_letter()
    {
        var folder = Directory.CreateTempSubdirectory("tankside-mail-");
        try
        {
            var mailer = new FileMailer(Options(folder.FullName), new FakeTimeProvider(), NullLogger<FileMailer>.Instance);

            await mailer.SendAsync(Sample with { Subject = "Eggs\r\nBcc: stranger@example.test\r\n\r\nand more" }, CancellationToken.None);
            var refused = await mailer.SendAsync(Sample with { To = "asa@example.test\r\nBcc: stranger@example.test" }, CancellationToken.None);

            var message = await MimeMessage.LoadAsync(Assert.Single(folder.GetFiles("mail/*.eml")).FullName);
            Assert.Equal(MailOutcome.Failed, refused);
            Assert.Empty(message.Bcc);
            Assert.StartsWith("Eggs", message.Subject, StringComparison.Ordinal);
            Assert.Equal(Sample.Text, message.TextBody!.Trim());
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    private static TanksideOptions Options(string folder) => new()
    {
        Database = new DatabaseChoice(DatabaseKind.Sqlite, ""),
        UsesDefaultFile = false,
        PublicUrl = new Uri(PortalHost.PublicUrl),
        Mail = new MailOptions(null, 587, null, null, "tankside@example.test", StartTls: false),
        DemoSeason = false,
        DataFolder = folder,
    };

    private static string Text(int number) => number.ToString(CultureInfo.InvariantCulture);
}
