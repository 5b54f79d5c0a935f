using System.Text.RegularExpressions;
using System.Threading.Channels;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;
using Tankside.Portal.Accounts.Mail;

namespace Tankside.Portal.Tests.Accounts;

/// <summary>Takes the portal's letters so that a test can read them, or refuses them as a mail server that is down.</summary>
public sealed partial class MailSink(MailOutcome outcome = MailOutcome.Sent) : IMailer
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(20);

    private readonly Channel<Letter> letters = Channel.CreateUnbounded<Letter>();

    public PortalHostSettings Settings => new() { Services = AddTo };

    public void AddTo(IServiceCollection services) => services.Replace(ServiceDescriptor.Singleton<IMailer>(this));

    public Task<MailOutcome> SendAsync(Letter letter, CancellationToken cancel)
    {
        if (outcome == MailOutcome.Sent)
        {
            letters.Writer.TryWrite(letter);
        }

        return Task.FromResult(outcome);
    }

    public Task<MailOutcome> ProbeAsync(CancellationToken cancel) => Task.FromResult(outcome);

    /// <summary>The next letter; waits for one that is on its way.</summary>
    public async Task<Letter> NextAsync() => await letters.Reader.ReadAsync().AsTask().WaitAsync(Patience);

    /// <summary>The path of the link that stands in a letter.</summary>
    public static string PathIn(Letter letter) => new Uri(Link().Match(letter.Text).Value).PathAndQuery;

    [GeneratedRegex(@"https?://\S+")]
    private static partial Regex Link();
}
