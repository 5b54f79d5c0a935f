using Tankside.Hatchery.Places;

namespace Tankside.Portal.Flags.Sweeps;

/// <summary>The words of the answer's page in one language.</summary>
public sealed record ReplyWords
{
    public required string Lang { get; init; }

    public required string Title { get; init; }

    public required string Ask { get; init; }

    public required IReadOnlyDictionary<SweepAnswer, string> Answers { get; init; }

    public required string Answered { get; init; }

    public required string Thanks { get; init; }

    public required string Change { get; init; }

    public required string More { get; init; }

    public required string Water { get; init; }

    public required string Moving { get; init; }

    public required string Yes { get; init; }

    public required string No { get; init; }

    public required string Tank { get; init; }

    public required string Note { get; init; }

    public required string NoteHint { get; init; }

    public required string Send { get; init; }

    public required string First { get; init; }

    public required string LastRead { get; init; }

    public required string Contact { get; init; }

    public required string LookAgain { get; init; }

    public required string NothingSaid { get; init; }

    public required string WhichTank { get; init; }

    public required string NotANumber { get; init; }

    public required string NoteTooLong { get; init; }

    public required Func<string, string> Doubtful { get; init; }

    public required string UnknownTitle { get; init; }

    public required string Unknown { get; init; }

    public required string OverTitle { get; init; }

    public required string Over { get; init; }

    public required string ShutOut { get; init; }

    public static ReplyWords In(string? language) => language == "es" ? Spanish : English;

    private static readonly ReplyWords English = new()
    {
        Lang = "en",
        Title = "How is your tank?",
        Ask = "One press is enough.",
        Answers = new Dictionary<SweepAnswer, string>
        {
            [SweepAnswer.AllWell] = "All is well",
            [SweepAnswer.PowerOff] = "The power is off",
            [SweepAnswer.Trouble] = "There is trouble",
            [SweepAnswer.NobodyThere] = "Nobody is there",
        },
        Answered = "You answered:",
        Thanks = "Your coordinator sees it now. Thank you.",
        Change = "Has it changed? Press again.",
        More = "Can you read the thermometer?",
        Water = "What does the thermometer in the water say?",
        Moving = "Is the water moving?",
        Yes = "Yes",
        No = "No",
        Tank = "Which tank?",
        Note = "Anything else?",
        NoteHint = "Please name no child.",
        Send = "Send this too",
        First = "What to do first",
        LastRead = "Last reading:",
        Contact = "Text or ring:",
        LookAgain = "Please look again",
        NothingSaid = "Nothing was pressed or filled in.",
        WhichTank = "Your school has several tanks. Choose the one you looked at.",
        NotANumber = "This is not a water temperature. Write it like 52 or 52.5.",
        NoteTooLong = $"This note is too long: {TakeReply.LongestNote} letters fit.",
        Doubtful = typed => $"You typed {typed}. That is not like this tank. It is kept and your coordinator will look at it. Was it a slip? Then send the right number.",
        UnknownTitle = "This link does not open anything",
        Unknown = "The message may have broken the link in two: copy the whole line. Or ring your coordinator.",
        OverTitle = "This is over",
        Over = "No answer is needed any more. If your tank is in trouble, ring your coordinator.",
        ShutOut = "Too many wrong links came from this place. Please wait ten minutes and open it again.",
    };

    private static readonly ReplyWords Spanish = new()
    {
        Lang = "es",
        Title = "¿Cómo está su tanque?",
        Ask = "Basta con un toque.",
        Answers = new Dictionary<SweepAnswer, string>
        {
            [SweepAnswer.AllWell] = "Todo está bien",
            [SweepAnswer.PowerOff] = "No hay luz",
            [SweepAnswer.Trouble] = "Hay un problema",
            [SweepAnswer.NobodyThere] = "No hay nadie allí",
        },
        Answered = "Usted respondió:",
        Thanks = "Su coordinación ya lo ve. Gracias.",
        Change = "¿Ha cambiado? Toque otra vez.",
        More = "¿Puede leer el termómetro?",
        Water = "¿Qué dice el termómetro dentro del agua?",
        Moving = "¿Se mueve el agua?",
        Yes = "Sí",
        No = "No",
        Tank = "¿Qué tanque?",
        Note = "¿Algo más?",
        NoteHint = "No escriba el nombre de ningún niño.",
        Send = "Enviar esto también",
        First = "Qué hacer primero",
        LastRead = "Última lectura:",
        Contact = "Mensaje o llamada:",
        LookAgain = "Por favor, mire otra vez",
        NothingSaid = "No se tocó ni se escribió nada.",
        WhichTank = "Su escuela tiene varios tanques. Elija el que ha mirado.",
        NotANumber = "Esto no es una temperatura de agua. Escríbala como 52 o 52.5.",
        NoteTooLong = $"La nota es demasiado larga: caben {TakeReply.LongestNote} letras.",
        Doubtful = typed => $"Usted escribió {typed}. No parece de este tanque. Queda guardado y su coordinación lo mirará. ¿Fue un error? Envíe el número correcto.",
        UnknownTitle = "Este enlace no abre nada",
        Unknown = "Quizá el mensaje partió el enlace en dos: copie la línea entera. O llame a su coordinación.",
        OverTitle = "Esto ya terminó",
        Over = "Ya no hace falta responder. Si su tanque tiene problemas, llame a su coordinación.",
        ShutOut = "Han llegado demasiados enlaces equivocados desde este lugar. Espere diez minutos y ábralo otra vez.",
    };
}
