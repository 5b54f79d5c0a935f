using MimeKit;
using Tankside.Portal.Accounts.Mail;

namespace Tankside.Fuzz.Tests.Targets;

/// <summary>Reports of letters that could not be delivered, as mail servers send them back.</summary>
public static class Bounces
{
    private static readonly string[] Lines =
    [
        "Content-Type: multipart/report; report-type=delivery-status; boundary=b", "--b", "--b--", "Content-Type: message/delivery-status", "Content-Type: text/rfc822-headers", "Content-Type: message/rfc822", "Content-Transfer-Encoding: base64",
        "Content-Transfer-Encoding: quoted-printable", "Reporting-MTA: dns; mx.example.test", "Original-Envelope-Id: 7b0c1f7e3a534c1e9d2b0c2f3a4b5c6d@tankside.example.test", "Final-Recipient: rfc822; wren@heronford.example",
        "Original-Recipient: rfc822;<wren@heronford.example>", "Final-Recipient: x400; none", "Action: failed", "Action: delayed", "Action: (comment)", "Status: 5.1.1", "Status: 5.٣.1", "Status: 4.2.2 (full)", "Status: 5.1.1000", "",
        "Message-ID: <7b0c1f7e3a534c1e9d2b0c2f3a4b5c6d@tankside.example.test>", "Message-ID: <>", "From: a@b", "From ", ": x", "no header at all", "=?utf-8?B?////?=", " folded",
    ];

    private const string Head =
        "From: mailer@mx.example.test\r\nMIME-Version: 1.0\r\nContent-Type: multipart/report; report-type=delivery-status; boundary=b\r\n\r\n--b\r\nContent-Type: text/plain\r\n\r\nSorry.\r\n--b\r\nContent-Type: message/delivery-status\r\n\r\n"
        + "Reporting-MTA: dns; mx.example.test\r\n\r\n";

    public static Target Target { get; } = new("bounces", Make, Read) { Words = [.. Lines.Select(l => l + "\r\n")], MostBytesOnce = 16 << 20 };

    private static byte[] Make(Dice dice) => Texts.Bytes($"{Head}{Some(dice)}\r\n\r\n--b\r\nContent-Type: text/rfc822-headers\r\n\r\n{Some(dice)}\r\n--b--\r\n");

    private static string Some(Dice dice) => string.Join("\r\n", Enumerable.Range(0, dice.Below(6)).Select(_ => dice.Of(Lines)));

    private static string Read(byte[] bytes)
    {
        MimeMessage message;
        try
        {
            message = MimeMessage.Load(new MemoryStream(bytes));
        }
        catch (FormatException)
        {
            return "no message";
        }

        using (message)
        {
            var reports = DeliveryReports.Read(message);
            foreach (var report in reports)
            {
                Held.That(report.Action.Length > 0 && report.Address is null or { Length: > 0 }, "A report names nobody, or nothing that became of it.");
                Held.That(EnhancedStatus.Find(report.Status.ToString()) == report.Status, "A status that was written again is read as another.");
                Held.Storable(report.Address?.Replace("\0", "", StringComparison.Ordinal), "An address"); // A NUL is left out on its way to the database.
            }

            _ = RefusalForGood.Code(550, Texts.Read(bytes));
            return string.Join(' ', reports.Select(r => $"{r.Action.Length} {r.Address is null} {r.LetterId is null} {r.Status.BlamesAddress}"));
        }
    }
}
