using System.Globalization;
using System.Text.RegularExpressions;

namespace Tankside.Portal.Accounts.Mail;

/// <summary>A status code of a delivery, as RFC 3463 orders them: class, subject, detail.</summary>
public readonly partial record struct EnhancedStatus(int Class, int Subject, int Detail)
{
    private const int Permanent = 5;

    private static readonly int[] NotTheAddress = [3, 5, 6, 7];

    public bool IsPermanent => Class == Permanent;

    /// <summary>
    /// Whether the address itself takes no mail. The mail system, the protocol, the content and the policy (subjects 3, 5, 6, 7) are no fault
    /// of the address, nor is a letter too long for its box (x.2.3): another letter may well arrive.
    /// </summary>
    public bool BlamesAddress => IsPermanent && !NotTheAddress.Contains(Subject) && (Subject, Detail) is not (2, 3);

    /// <summary>The first such code in a text: "5.1.1" in "550 5.1.1 no such box". Parts of an IP address are none.</summary>
    public static EnhancedStatus? Find(string? text) => text is not null && Code().Match(text) is { Success: true } match
        ? new EnhancedStatus(Number(match, 1), Number(match, 2), Number(match, 3))
        : null;

    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Class}.{Subject}.{Detail}");

    private static int Number(Match match, int group) => int.Parse(match.Groups[group].ValueSpan, CultureInfo.InvariantCulture);

    [GeneratedRegex(@"(?<![0-9.])([245])\.([0-9]{1,3})\.([0-9]{1,3})(?![0-9]|\.[0-9])")]
    private static partial Regex Code();
}

/// <summary>What a server's answer to an address says about it.</summary>
public static class RefusalForGood
{
    /// <summary>The code to remember; null when the answer does not say that the address takes no mail, now or ever.</summary>
    /// <param name="reply">The number of the answer. RFC 5321 keeps 550 to 553 for the mailbox and 554 for a failure that has no other word.</param>
    public static string? Code(int reply, string? words) => EnhancedStatus.Find(words) is { } status
        ? reply is >= 500 and < 600 && status.BlamesAddress ? status.ToString() : null
        : reply is >= 550 and <= 554 ? reply.ToString(CultureInfo.InvariantCulture) : null;
}
