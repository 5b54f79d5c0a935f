using Tankside.Hatchery.People;

namespace Tankside.Portal.Accounts.Mail;

/// <summary>What a letter says in the moment it goes.</summary>
public abstract record FreshWords
{
    /// <param name="Kept">What is kept of it, where the text holds what must not lie in the database; null for the text itself.</param>
    public sealed record Say(string Subject, string Text, string? Kept = null) : FreshWords;

    /// <summary>It has to wait until then.</summary>
    public sealed record Later(DateTime NotBefore) : FreshWords;

    /// <summary>It is not sent any more.</summary>
    public sealed record NotNeeded(string Why) : FreshWords;
}

/// <summary>
/// Words a kind of letter when it goes. It may have waited for a quiet night to end or for the mail server: what it says should be true when
/// it is read, and what is settled by then need not be said.
/// </summary>
public interface IFreshWords
{
    bool Knows(OutgoingLetter letter);

    /// <summary>What a person leaves who wants no more such letters; null for what they asked for and for what must arrive (<see cref="MustArrive"/>).</summary>
    MailKind? Kind => null;

    Task<FreshWords> WordAsync(OutgoingLetter letter, CancellationToken cancel);
}
