using Tankside.Hatchery.People;

namespace Tankside.Portal.Digests.Leaving;

/// <summary>What the page says by which a person leaves a kind of mail, in their language.</summary>
/// <param name="Without">What they will not learn by mail any more; empty for a link that opens nothing.</param>
public sealed record LeaveWords(
    string Lang, string Title, string Without, string Button, string Left, string AgainButton, string Back, string Others, string UnknownTitle, string Unknown, string OwnPage)
{
    public static LeaveWords Of(MailKind? kind, string? language)
    {
        var (en, es, without, sin) = kind switch
        {
            MailKind.Announcement => ("announcements", "avisos del programa",
                "What the programme tells everybody, dates and changes among it, you then learn only by asking.",
                "Lo que el programa dice a todos, también fechas y cambios, lo sabrá entonces solo si pregunta."),
            MailKind.Reminder => ("reminders of reports", "recordatorios de informes",
                "A report that is not sent in time can end a permit. The page of releases still shows what is due.",
                "Un informe que no se envía a tiempo puede terminar un permiso. La página de liberaciones sigue mostrando lo que toca."),
            MailKind.Morning => ("morning mails", "correos de la mañana",
                "The morning round stays on its page, and you look there by yourself.",
                "La ronda de la mañana sigue en su página, y usted la mira por su cuenta."),
            MailKind.Urgent => ("mails at once when a tank cannot wait", "correos urgentes cuando un tanque no puede esperar",
                "A tank that cannot wait then stands only in the morning round: make sure that somebody else is mailed.",
                "Un tanque que no puede esperar estará entonces solo en la ronda de la mañana: asegúrese de que otra persona reciba el correo."),
            _ => ("mails", "correos", "", ""),
        };
        return language == "es"
            ? new("es", $"¿No más {es}?", sin, $"No enviarme más {es}", $"Hecho: ya no recibirá {es}.", "Fue un error: enviarlos otra vez", $"Hecho: recibirá otra vez {es}.",
                "Sus otros correos siguen igual. Los que tratan de una entrega, de primeros auxilios o de una zona en peligro llegan siempre.",
                "Este enlace no abre nada", "Quizá el correo partió el enlace en dos: copie la línea entera.", "Elegir sus correos en su página")
            : new("en", $"No more {en}?", without, $"Send me no more {en}", $"Done: you get no more {en}.", "That was a mistake: send them again", $"Done: you get {en} again.",
                "Your other mails stay as they are. Those about a delivery, first aid or an area in danger always come.",
                "This link does not open anything", "The mail may have broken the link in two: copy the whole line.", "Choose your mails on your page");
    }
}
