using MimeKit;
using MimeKit.Utils;

namespace Tankside.Portal.Accounts.Mail;

/// <summary>Letters as they travel.</summary>
internal static class Envelope
{
    public static MimeMessage Of(Letter letter, string from, DateTimeOffset at)
    {
        var sender = MailboxAddress.Parse(from);
        var message = new MimeMessage
        {
            Subject = letter.Subject,
            Date = at,
            // By default it would carry the server's own name.
            MessageId = letter.Id is { } id ? $"{id:N}@{sender.Domain}" : MimeUtils.GenerateMessageId(sender.Domain),
            Body = new TextPart("plain") { Text = letter.Text },
        };
        message.From.Add(sender);
        message.To.Add(new MailboxAddress("", letter.To));
        // Out-of-office answers to an invitation help nobody.
        message.Headers.Add("Auto-Submitted", "auto-generated");
        if (letter.Leave is { } leave)
        {
            message.Headers.Add(HeaderId.ListUnsubscribe, $"<{leave}>");
            // RFC 8058 has the one press only over HTTPS; elsewhere the link in the text is the way.
            if (leave.Scheme == Uri.UriSchemeHttps)
            {
                message.Headers.Add("List-Unsubscribe-Post", "List-Unsubscribe=One-Click");
            }
        }

        return message;
    }
}
