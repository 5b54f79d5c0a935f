namespace Tankside.Portal.Accounts.Mail;

/// <summary>One text mail to one person.</summary>
/// <param name="Id">Of a letter from the outbox: however often it is handed over, it carries the same message id.</param>
/// <param name="Leave">Where the person leaves mails of this kind; null for what must reach them anyway.</param>
public sealed record Letter(string To, string Subject, string Text, Guid? Id = null, Uri? Leave = null);

/// <summary>What became of a letter. Only <see cref="Sent"/> may be told to anyone as sent.</summary>
public enum MailOutcome
{
    /// <summary>A mail server has taken it.</summary>
    Sent,

    /// <summary>No mail server is set; the letter lies as a file in the data folder.</summary>
    KeptAsFile,

    /// <summary>It went nowhere; the log says why.</summary>
    Failed,

    /// <summary>It was handed over and no answer came: it may have gone or not.</summary>
    Unsure,

    /// <summary>The server refused the address for good; trying again would change nothing.</summary>
    Bounced,
}

public interface IMailer
{
    Task<MailOutcome> SendAsync(Letter letter, CancellationToken cancel);

    /// <summary>The same, with the code of an address that was refused for good.</summary>
    async Task<(MailOutcome Outcome, string? Code)> HandOverAsync(Letter letter, CancellationToken cancel) => (await SendAsync(letter, cancel), null);

    /// <summary>What would become of a letter now, without sending one.</summary>
    Task<MailOutcome> ProbeAsync(CancellationToken cancel);
}
