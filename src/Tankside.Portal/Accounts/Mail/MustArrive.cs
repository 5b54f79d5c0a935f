using Tankside.Hatchery.People;

namespace Tankside.Portal.Accounts.Mail;

/// <summary>
/// A kind of letter that nobody leaves, because fish die without it. Its last line says why it came, and where its language and hours are chosen.
/// </summary>
/// <param name="KeyStart">What the keys of these letters begin with.</param>
/// <param name="Because">Why it came, after "You get this mail because".</param>
/// <param name="Porque">The same after "Recibe este correo porque".</param>
public sealed record MustArrive(string KeyStart, string Because, string Porque)
{
    public bool Knows(OutgoingLetter letter) => letter.Key.StartsWith(KeyStart, StringComparison.Ordinal);

    public string Line(string language, Uri ownPage) => language == "es"
        ? $"\n\nRecibe este correo porque {Porque}. Los peces dependen de él, así que no se puede dejar; su idioma y sus horas de silencio se eligen aquí: {ownPage}"
        : $"\n\nYou get this mail because {Because}. Fish depend on it, so it cannot be left; its language and your quiet hours are chosen here: {ownPage}";
}
