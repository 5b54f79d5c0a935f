using System.Net.Sockets;
using MailKit;
using MailKit.Net.Smtp;
using MailKit.Security;
using MimeKit;
using Tankside.Portal.Shell;

namespace Tankside.Portal.Accounts.Mail;

/// <summary>Hands letters to the configured mail server, one connection a letter.</summary>
public sealed class SmtpMailer(TanksideOptions options, TimeProvider time, ILogger<SmtpMailer> log) : IMailer
{
    /// <summary>A person waits for the answer, so a server that does not answer counts as down soon.</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(10);

    private readonly MailOptions settings = options.Mail;

    public async Task<MailOutcome> SendAsync(Letter letter, CancellationToken cancel) => (await HandOverAsync(letter, cancel)).Outcome;

    public Task<(MailOutcome Outcome, string? Code)> HandOverAsync(Letter letter, CancellationToken cancel) => TryAsync(
        async (client, begun, patience) =>
        {
            using var message = Envelope.Of(letter, settings.From, time.GetUtcNow());
            await client.SendAsync(message, MailboxAddress.Parse(settings.ReturnTo ?? settings.From), message.To.Mailboxes, patience, begun);
        },
        cancel);

    public async Task<MailOutcome> ProbeAsync(CancellationToken cancel) => (await TryAsync((client, _, patience) => client.NoOpAsync(patience), cancel)).Outcome;

    private async Task<(MailOutcome Outcome, string? Code)> TryAsync(Func<SmtpClient, Begun, CancellationToken, Task> act, CancellationToken cancel)
    {
        var begun = new Begun();
        using var patience = CancellationTokenSource.CreateLinkedTokenSource(cancel);
        patience.CancelAfter(Patience);
        try
        {
            using var client = new Client();
            await client.ConnectAsync(settings.Host!, settings.Port, Security(), patience.Token);
            if (!string.IsNullOrEmpty(settings.User))
            {
                await client.AuthenticateAsync(settings.User, settings.Password ?? "", patience.Token);
            }

            await act(client, begun, patience.Token);
            await ByeAsync(client, patience.Token);
            return (MailOutcome.Sent, null);
        }
        catch (Exception e) when (IsMailTrouble(e) && !cancel.IsCancellationRequested)
        {
            // The kind of trouble and no more: a server's answer may repeat the address.
            log.LogError("Mail could not be sent through {Host}:{Port}: {Trouble}", settings.Host, settings.Port, Trouble(e));
            // A server that has the words of a letter and gives no answer may have taken it.
            return e is SmtpCommandException { ErrorCode: SmtpErrorCode.RecipientNotAccepted } refused && RefusalForGood.Code((int)refused.StatusCode, refused.Message) is { } code
                ? (MailOutcome.Bounced, code)
                : (begun.Yes && e is not SmtpCommandException ? MailOutcome.Unsure : MailOutcome.Failed, null);
        }
    }

    private SecureSocketOptions Security() =>
        settings.StartTls ? SecureSocketOptions.StartTls
        : settings.Port == 465 ? SecureSocketOptions.SslOnConnect
        : SecureSocketOptions.None;

    /// <summary>The letter is delivered by now; a server that hangs up early changes nothing about that.</summary>
    private static async Task ByeAsync(SmtpClient client, CancellationToken patience)
    {
        try
        {
            await client.DisconnectAsync(quit: true, patience);
        }
        catch (Exception e) when (IsMailTrouble(e))
        {
        }
    }

    private static bool IsMailTrouble(Exception e) =>
        e is ProtocolException or CommandException or AuthenticationException or SslHandshakeException or ServiceNotConnectedException
            or ServiceNotAuthenticatedException or ParseException or SocketException or IOException or NotSupportedException
            or OperationCanceledException;

    private static string Trouble(Exception e) =>
        e is SmtpCommandException command ? $"answer {(int)command.StatusCode} ({command.ErrorCode})"
        : e is OperationCanceledException ? $"no answer within {Patience.TotalSeconds:0} s"
        : e.GetType().Name;

    /// <summary>Gives a server that reports on deliveries the letter's own id to name in its report.</summary>
    private sealed class Client : SmtpClient
    {
        protected override string GetEnvelopeId(MimeMessage message) => message.MessageId ?? "";
    }

    /// <summary>Notices when the words of the letter itself begin to travel.</summary>
    private sealed class Begun : ITransferProgress
    {
        public bool Yes { get; private set; }

        public void Report(long bytesTransferred, long totalSize) => Yes = true;

        public void Report(long bytesTransferred) => Yes = true;
    }
}
