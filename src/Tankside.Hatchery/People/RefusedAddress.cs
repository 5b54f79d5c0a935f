namespace Tankside.Hatchery.People;

/// <summary>Kinds of mail that nobody asked for one by one, and that each person may leave by itself.</summary>
public enum MailKind
{
    Announcement,
    Reminder,
    Morning,
    Urgent,
}

/// <summary>
/// A mail address that a mail server has refused for good. It stands by the address and not by the person: a corrected address is free of it
/// by itself. A letter that is taken there clears it.
/// </summary>
public sealed class RefusedAddress
{
    /// <summary>As <see cref="Key"/> writes it.</summary>
    public required string Address { get; init; }

    public DateTime Since { get; init; }

    /// <summary>The status code of RFC 3463, or the number of the answer: never the server's words, which may hold an address.</summary>
    public required string Code { get; init; }

    /// <summary>Capital and small letters are the same address here, as they are for signing in.</summary>
    public static string Key(string address) => address.Trim().ToUpperInvariant();
}
