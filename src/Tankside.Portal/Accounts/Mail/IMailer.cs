namespace Tankside.Portal.Accounts.Mail;

/// <summary>One text mail to one person.</summary>
/// <param name="Id">Of a letter from the outbox: however often it is handed over, it carries the same message id.</param>
public sealed record Letter(string To, string Subject, string Text, Guid? Id = null);

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
}

public interface IMailer
{
    Task<MailOutcome> SendAsync(Letter letter, CancellationToken cancel);

    /// <summary>What would become of a letter now, without sending one.</summary>
    Task<MailOutcome> ProbeAsync(CancellationToken cancel);
}
