namespace Tankside.Portal.Accounts.Mail;

/// <summary>Why a letter is not sent, in words for the lead and without addresses; and how long it waits after a failure.</summary>
public static class LetterTroubles
{
    /// <summary>Begins the trouble of a letter that was left unsent on purpose; nothing is wrong with it.</summary>
    public const string NotNeeded = "Not needed any more: ";

    public const string Failed = "The mail server did not take it; the log of the portal says why.";

    public const string NoAnswer = "The connection broke before the mail server said whether it took it.";

    public const string PortalStopped = "The portal was stopped while it was being sent; nobody can say whether it went.";

    /// <summary>A server's own words are left out: they may hold an address.</summary>
    public static string Bounced(string code) => $"The mail server refused the address for good ({code}).";

    public static string NotDelivered(string code) => $"It was taken first and not delivered in the end ({code}).";

    /// <summary>Tries until a letter is given up: about a day of them.</summary>
    public const int MostAttempts = 27;

    private static readonly TimeSpan[] Waits = [TimeSpan.FromMinutes(1), TimeSpan.FromMinutes(5), TimeSpan.FromMinutes(15), TimeSpan.FromHours(1)];

    /// <summary>How long to wait after so many failures.</summary>
    public static TimeSpan WaitAfter(int attempts) => Waits[Math.Clamp(attempts, 1, Waits.Length) - 1];
}
