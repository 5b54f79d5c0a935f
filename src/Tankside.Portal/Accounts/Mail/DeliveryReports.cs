using MimeKit;

namespace Tankside.Portal.Accounts.Mail;

/// <summary>What a report says of one recipient.</summary>
/// <param name="LetterId">Our letter, when the report names its message id.</param>
/// <param name="Address">The recipient as we wrote to them, else as the last server knew them; null when the report gives no mail address.</param>
/// <param name="Action">"failed", "delayed", "delivered", "relayed" or "expanded".</param>
public sealed record ReportedDelivery(Guid? LetterId, string? Address, string Action, EnhancedStatus Status);

/// <summary>Reads delivery status notifications (RFC 3464).</summary>
public static class DeliveryReports
{
    /// <summary>One for each recipient; none when the message is no such report.</summary>
    public static IReadOnlyList<ReportedDelivery> Read(MimeMessage message)
    {
        if (message.BodyParts.OfType<MessageDeliveryStatus>().FirstOrDefault() is not { } status)
        {
            return [];
        }

        // The first group is about the message, each other about one recipient.
        var groups = status.StatusGroups;
        var letter = LetterOf(groups.FirstOrDefault()?["Original-Envelope-Id"]) ?? LetterOf(OriginalId(message));
        return [.. groups.Skip(1).Select(group => Of(letter, group)).OfType<ReportedDelivery>()];
    }

    private static ReportedDelivery? Of(Guid? letter, HeaderList group) =>
        group["Action"]?.Trim().Split(' ', '(')[0].ToLowerInvariant() is { Length: > 0 } action && EnhancedStatus.Find(group["Status"]) is { } status
            ? new ReportedDelivery(letter, Address(group["Original-Recipient"]) ?? Address(group["Final-Recipient"]), action, status)
            : null;

    /// <summary>"rfc822;someone@example.test"; other kinds of address are none that we wrote to.</summary>
    private static string? Address(string? field) =>
        field?.Split(';', 2) is [var kind, var address] && kind.Trim().Equals("rfc822", StringComparison.OrdinalIgnoreCase) && address.Trim() is { Length: > 0 } found
            && found.Trim('<', '>') is { Length: > 0 } bare
            ? bare
            : null;

    /// <summary>The message comes back whole or as its headers alone.</summary>
    private static string? OriginalId(MimeMessage message)
    {
        foreach (var part in message.BodyParts)
        {
            switch (part)
            {
                case MessagePart { Message.MessageId: { } id }:
                    return id;
                case MimePart { Content: { } content } when part.ContentType.IsMimeType("text", "rfc822-headers"):
                    using (var text = new MemoryStream())
                    {
                        content.DecodeTo(text);
                        text.Position = 0;
                        return HeadersOf(text)?[HeaderId.MessageId];
                    }
            }
        }

        return null;
    }

    /// <summary>Null for a part that holds something else than it says.</summary>
    private static HeaderList? HeadersOf(Stream text)
    {
        try
        {
            return HeaderList.Load(text);
        }
        catch (FormatException)
        {
            return null;
        }
    }

    /// <summary>Ours are "{32 digits}@{domain}"; see <see cref="Envelope"/>.</summary>
    private static Guid? LetterOf(string? messageId) => Guid.TryParseExact(messageId?.Trim().Trim('<', '>').Split('@')[0], "N", out var id) ? id : null;
}
