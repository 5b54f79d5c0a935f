using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Portal.Flags;
using Tankside.Portal.Flags.FirstAidTexts;
using Tankside.Science.Units;

namespace Tankside.Portal.Digests;

internal sealed class SpanishPhrases : LetterPhrases
{
    public override string MorningRound => "Su ronda de la mañana";

    public override string WholeRound => "La ronda completa";

    public override string YourMails => "Cuándo llegan estos correos, o que no lleguen";

    public override string TakeTheCall => "Tome la llamada en esa página antes de llamar, para que nadie más llame también.";

    public override string Answer(int calls, int well, int silent)
    {
        var need = calls switch
        {
            0 => "Ningún tanque le necesita esta mañana",
            1 => "1 tanque le necesita esta mañana",
            _ => $"{CountWords.Number(calls)} tanques le necesitan esta mañana",
        };
        return $"{need}; {CountWords.Number(well)} {(well == 1 ? "está" : "están")} bien{(silent == 0 ? "" : $"; {CountWords.Number(silent)} sin noticias")}.";
    }

    public override string CannotWait(string which) => $"Actúe ya: {which}";

    public override string SeveralCannotWait(int tanks) => $"{CountWords.Number(tanks)} tanques no pueden esperar.";

    public override string Urgency(Urgency urgency) => urgency switch
    {
        Hatchery.Flags.Urgency.ActNow => "actúe ya",
        Hatchery.Flags.Urgency.Today => "hoy",
        Hatchery.Flags.Urgency.ThisWeek => "esta semana",
    };

    public override string Who(RoundRow row) =>
        row is RoundShared shared ? $"{ReasonWordsSpanish.Sharing(shared.Evidence.By)} {shared.Evidence.Code}: {shared.Evidence.Tanks.Count} de {shared.Evidence.Of} tanques" : base.Who(row);

    public override string Reason(RoundRow row, RoundNow round)
    {
        var words = new ReasonWordsSpanish(row.Calendar, row.Fish, round.At, StageNames.Of(row switch { RoundCall call => call.Place.OwnTexts, RoundShared shared => shared.Texts, _ => OwnTexts.None }));
        return words.Of(row.Leading.Flag.AsFinding())
            + (row.Troubles.Count > 1 ? $" También: {string.Join(", ", row.Troubles.Skip(1).Select(t => KindNames.Of(t.Flag.Kind).Es))}." : "");
    }

    public override string HoursLeft(Band hours) => hours.High <= 0 ? "Según los números el tiempo ya pasó; nadie ha mirado todavía." : $"Horas que quedan: {Span(hours)}.";

    public override string Ring(IReadOnlyList<Adult> adults) => $"Llame a: {People(adults)}";

    public override string TakenBy(string name) => $"{name} se ocupa.";

    public override string Doubts(int readings) => readings == 1
        ? "1 lectura espera que alguien diga qué quiso decir."
        : $"{CountWords.Number(readings)} lecturas esperan que alguien diga qué quisieron decir.";

    public override string More(int calls) => $"Y {CountWords.Number(calls)} más en la ronda.";

    public override string Sender(string programme) => $"{programme}, por Tankside";
}
