using Tankside.Hatchery.People;

namespace Tankside.Portal.Digests.Leaving;

/// <summary>What the page says by which a person leaves a kind of mail, in their language.</summary>
public sealed record LeaveWords(string Lang, string Title, string Button, string Left, string AgainButton, string Back, string Others, string UnknownTitle, string Unknown, string OwnPage)
{
    public static LeaveWords Of(MailKind? kind, string? language)
    {
        var (en, es) = kind switch
        {
            MailKind.Announcement => ("announcements", "avisos del programa"),
            MailKind.Reminder => ("reminders of reports", "recordatorios de informes"),
            MailKind.Morning => ("morning mails", "correos de la mañana"),
            MailKind.Urgent => ("mails at once when a tank cannot wait", "correos urgentes cuando un tanque no puede esperar"),
            _ => ("mails", "correos"),
        };
        return language == "es"
            ? new("es", $"¿No más {es}?", $"No enviarme más {es}", $"Hecho: ya no recibirá {es}.", "Fue un error: enviarlos otra vez", $"Hecho: recibirá otra vez {es}.",
                "Sus otros correos siguen igual. Todo se puede cambiar en su página.", "Este enlace no abre nada", "Quizá el correo partió el enlace en dos: copie la línea entera. También puede cambiar sus correos en su página.", "Su página")
            : new("en", $"No more {en}?", $"Send me no more {en}", $"Done: you get no more {en}.", "That was a mistake: send them again", $"Done: you get {en} again.",
                "Your other mails stay as they are. All of it can be changed on your page.", "This link does not open anything", "The mail may have broken the link in two: copy the whole line. You can also choose your mails on your page.", "Your page");
    }
}
