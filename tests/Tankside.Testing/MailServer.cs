using System.Buffers;
using System.Collections.Concurrent;
using System.Globalization;
using System.Net;
using System.Threading.Channels;
using MimeKit;
using SmtpServer;
using SmtpServer.ComponentModel;
using SmtpServer.Mail;
using SmtpServer.Protocol;
using SmtpServer.Storage;

namespace Tankside.Testing;

/// <summary>A real mail server on this machine that keeps what it is given, or refuses, or breaks off.</summary>
public sealed class MailServer : MessageStore, IAsyncDisposable
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(20);

    private readonly Channel<MimeMessage> arrived = Channel.CreateUnbounded<MimeMessage>();
    private readonly ConcurrentQueue<MimeMessage> all = new();
    private readonly CancellationTokenSource stop = new();
    private readonly int port = Loopback.FreePort();
    private readonly Task running;

    public MailServer()
    {
        var services = new ServiceProvider();
        services.Add((IMessageStore)this);
        services.Add(new Door(this));
        running = new SmtpServer.SmtpServer(
            new SmtpServerOptionsBuilder().ServerName("localhost").Endpoint(e => e.Endpoint(new IPEndPoint(IPAddress.Loopback, port))).Build(),
            services).StartAsync(stop.Token);
    }

    /// <summary>What happens to the next letters once they are handed over.</summary>
    public MailServerMood Mood { get; set; } = MailServerMood.Takes;

    /// <summary>Addresses that have no box here, with the words of the answer.</summary>
    public ConcurrentDictionary<string, string> NoSuchBox { get; } = new(StringComparer.OrdinalIgnoreCase);

    /// <summary>Everything that was handed over and taken, in order.</summary>
    public IReadOnlyList<MimeMessage> All => [.. all];

    public IReadOnlyDictionary<string, string> Keys => new Dictionary<string, string>
    {
        ["Tankside:Mail:Host"] = "127.0.0.1",
        ["Tankside:Mail:Port"] = port.ToString(CultureInfo.InvariantCulture),
        ["Tankside:Mail:From"] = "tankside@example.test",
    };

    /// <summary>The next letter; waits for one that is on its way.</summary>
    public async Task<MimeMessage> NextAsync() => await arrived.Reader.ReadAsync().AsTask().WaitAsync(Patience);

    public override async Task<SmtpResponse> SaveAsync(
        ISessionContext context, IMessageTransaction transaction, ReadOnlySequence<byte> buffer, CancellationToken cancellationToken)
    {
        if (Mood == MailServerMood.Refuses)
        {
            return new SmtpResponse(SmtpReplyCode.InsufficientStorage, "come back later");
        }

        if (Mood == MailServerMood.Hangs)
        {
            await Task.Delay(Timeout.Infinite, cancellationToken);
        }

        using var stream = new MemoryStream(buffer.ToArray());
        var message = await MimeMessage.LoadAsync(stream, cancellationToken);
        all.Enqueue(message);
        arrived.Writer.TryWrite(message);
        if (Mood == MailServerMood.TakesAndBreaksOff)
        {
            context.Pipe!.Input.CancelPendingRead();
            await context.Pipe.Output.CompleteAsync();
            throw new IOException("The line is cut.");
        }

        return SmtpResponse.Ok;
    }

    public async ValueTask DisposeAsync()
    {
        await stop.CancelAsync();
        await running;
        stop.Dispose();
    }

    /// <summary>Says at once which addresses it does not know.</summary>
    private sealed class Door(MailServer server) : MailboxFilter
    {
        public override async Task<bool> CanAcceptFromAsync(ISessionContext context, IMailbox from, int size, CancellationToken cancellationToken)
        {
            if (server.Mood == MailServerMood.HangsUp)
            {
                await context.Pipe!.Output.CompleteAsync();
                throw new IOException("The line is cut.");
            }

            return true;
        }

        public override Task<bool> CanDeliverToAsync(ISessionContext context, IMailbox to, IMailbox from, CancellationToken cancellationToken) =>
            server.NoSuchBox.TryGetValue($"{to.User}@{to.Host}", out var words)
                ? throw new SmtpResponseException(new SmtpResponse(SmtpReplyCode.MailboxUnavailable, words))
                : Task.FromResult(true);
    }
}

public enum MailServerMood
{
    Takes,

    /// <summary>It says that it cannot, for now.</summary>
    Refuses,

    /// <summary>It has the letter and never answers.</summary>
    Hangs,

    /// <summary>It is gone as soon as somebody has a letter for it.</summary>
    HangsUp,

    /// <summary>It has the letter and is gone before it says so.</summary>
    TakesAndBreaksOff,
}
