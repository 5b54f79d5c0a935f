using System.Globalization;

namespace Tankside.Portal.Eggs.Runs;

/// <summary>The message to a stop, in the teacher's language. It names no child and asks for none to be named.</summary>
internal abstract class StopTexts
{
    private static readonly StopTexts English = new EnglishTexts(), Spanish = new SpanishTexts();

    public static StopTexts In(string? language) => language == "es" ? Spanish : English;

    public abstract string Subject(RunView view, StopView stop);

    public abstract string Letter(RunView view, StopView stop, string name, string contact, Uri arrival);

    private sealed class EnglishTexts : StopTexts
    {
        public override string Subject(RunView view, StopView stop) => $"Eggs for {stop.Tank.Code} come on {On(view, "en-US")} about {RunView.Time(stop.Stop.Begins)}";

        public override string Letter(RunView view, StopView stop, string name, string contact, Uri arrival) =>
            $"""
            Hello {name},

            {RunWords.Eggs(stop.Stop.Eggs)} of lot {stop.Lot.Code} come to {stop.Tank.Code} in {stop.Room.Name} on {On(view, "en-US")}, between {RunView.Time(stop.Stop.Begins)} and {RunView.Time(stop.Stop.Ends)}{(stop.Stop.Visit == Hatchery.Eggs.Runs.VisitKind.Talk ? ", with a talk for the class" : "; the driver hands them over and goes on")}.

            Please have an adult at the door, the tank at its temperature for three days, and half an hour to bring box and tank together.
            Not ready? Ring {contact} today: the eggs then go to the holding tank and come later.

            When they are in the tank, enter what arrived:

            {arrival}

            The hatchery's and the agency's own sheet comes first. Please name no child in a note.

            {view.Programme.Name}, by Tankside
            """;
    }

    private sealed class SpanishTexts : StopTexts
    {
        public override string Subject(RunView view, StopView stop) => $"Los huevos para {stop.Tank.Code} llegan el {On(view, "es-MX")} hacia las {RunView.Time(stop.Stop.Begins)}";

        public override string Letter(RunView view, StopView stop, string name, string contact, Uri arrival) =>
            $"""
            Hola, {name}:

            {RunWords.Number(stop.Stop.Eggs)} huevos del lote {stop.Lot.Code} llegan a {stop.Tank.Code}, {stop.Room.Name}, el {On(view, "es-MX")}, entre las {RunView.Time(stop.Stop.Begins)} y las {RunView.Time(stop.Stop.Ends)}{(stop.Stop.Visit == Hatchery.Eggs.Runs.VisitKind.Talk ? ", con una charla para la clase" : "; quien los trae los entrega y sigue su camino")}.

            Por favor: un adulto en la puerta, el acuario a su temperatura desde hace tres días y media hora para igualar la caja y el acuario.
            ¿No está listo? Llame hoy a {contact}: los huevos van entonces al acuario de reserva y llegan más tarde.

            Cuando estén en el acuario, anote lo que llegó:

            {arrival}

            La hoja del criadero y de la agencia va primero. No escriba el nombre de ningún niño.

            {view.Programme.Name}, por Tankside
            """;
    }

    private static string On(RunView view, string culture) =>
        view.Run.On.ToString(culture == "es-MX" ? "dddd d 'de' MMMM" : "dddd, MMMM d", CultureInfo.GetCultureInfo(culture));
}
