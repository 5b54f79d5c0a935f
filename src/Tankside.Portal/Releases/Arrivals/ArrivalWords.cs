using Tankside.Hatchery.People;
using Tankside.Portal.Accounts.Mail;

namespace Tankside.Portal.Releases.Arrivals;

/// <summary>Eggs dead on arrival are told at once as what cannot wait, and left with it. What was counted then is still true when the letter goes.</summary>
internal sealed class ArrivalWords : IFreshWords
{
    /// <summary>What the keys of these letters begin with.</summary>
    public const string KeyStart = "arrival ";

    public MailKind? Kind => MailKind.Urgent;

    public bool Knows(OutgoingLetter letter) => letter.Key.StartsWith(KeyStart, StringComparison.Ordinal);

    public Task<FreshWords> WordAsync(OutgoingLetter letter, CancellationToken cancel) =>
        Task.FromResult<FreshWords>(new FreshWords.Say(letter.Subject, letter.Text));
}
