namespace Tankside.Portal.Digests.Announcements;

/// <summary>A text that every programme begins with.</summary>
/// <param name="About">When it is meant for, for whoever chooses.</param>
public sealed record ShippedTemplate(string Key, string Name, string About, Wording Wording);

/// <summary>The texts that are shipped, in the order of a season. Each has the caution that its work needs.</summary>
public static class ShippedTemplates
{
    public static IReadOnlyList<ShippedTemplate> All { get; } =
    [
        new("welcome", "Welcome: what to have ready", "A few weeks before the eggs.", new(
            "Welcome: what your tank needs before the eggs come",
            """
            Hello {name},

            Welcome to the season. Before eggs can come to {school}, please have these ready at {tank}:

            - the tank filled for at least two days, the water free of chlorine, the filter running;
            - the chiller on its set point and holding it overnight; thermometer in the water, not on the glass;
            - foam or a dark cover on all sides, gravel rinsed clean, no soap anywhere;
            - a battery air pump with batteries in it, and two sealed bottles of ice in a freezer nearby.

            The first reading can be entered today from the label on the tank.

            Plugs and cords: only an adult with dry hands, and every cord with a loop that hangs lower than its socket. Your school's and the agency's own rules come first.

            {coordinator}
            {telephone}
            """,
            "Bienvenida: lo que necesita su tanque antes de los huevos",
            """
            Hola, {name}:

            Bienvenida la temporada. Antes de que lleguen huevos a {school}, tenga listo en {tank}:

            - el tanque lleno desde hace al menos dos días, el agua sin cloro y el filtro en marcha;
            - el enfriador en su temperatura y que la mantenga toda la noche; el termómetro dentro del agua, no en el vidrio;
            - espuma o una cubierta oscura por todos los lados, la grava enjuagada, nada de jabón;
            - una bomba de aire de pilas con pilas puestas, y dos botellas de hielo selladas en un congelador cercano.

            La primera lectura se puede anotar hoy mismo con la etiqueta del tanque.

            Enchufes y cables: solo una persona adulta con las manos secas, y cada cable con una curva más baja que su enchufe. Las reglas de su escuela y de la agencia van primero.

            {coordinator}
            {telephone}
            """)),
        new("eggs-arrive", "Eggs arrive soon", "In the week before a delivery.", new(
            "Eggs come to {school}: {delivery day}",
            """
            Hello {name},

            Eggs for {tank} come on {delivery day}.

            That morning: read the thermometer and enter it; have somebody at the school office who knows of the driver; keep a clean cup and a soft net at hand.

            Put the closed bag or cup into the tank water until both are equally warm, and do not hurry it. Then tip the eggs in gently under water. Take out white ones with the pipette, wash hands before and after. Eggs stay in the dark.

            If the chiller does not hold its set point that morning, ring before the driver leaves. No eggs go into warm water.

            {coordinator}
            {telephone}
            """,
            "Llegan huevos a {school}: {delivery day}",
            """
            Hola, {name}:

            Los huevos para {tank} llegan el {delivery day}.

            Esa mañana: lea el termómetro y anótelo; que alguien en la oficina de la escuela sepa que viene el conductor; tenga a mano un vaso limpio y una red suave.

            Ponga la bolsa o el vaso cerrado en el agua del tanque hasta que los dos estén igual de fríos, sin prisa. Luego deje caer los huevos con cuidado bajo el agua. Saque los blancos con la pipeta; lávese las manos antes y después. Los huevos quedan a oscuras.

            Si esa mañana el enfriador no mantiene su temperatura, llame antes de que salga el conductor. Ningún huevo va a agua caliente.

            {coordinator}
            {telephone}
            """)),
        new("holidays", "The holidays are coming", "Two weeks before a break.", new(
            "Before the holidays: who looks after {tank}?",
            """
            Hello {name},

            The holidays are coming, and the fish stay. {tank} at present: {stage}. Likely hatch: {likely hatch date}.

            Please settle this week:

            - who looks at the tank, on which days, and who lets them in;
            - that they have the label on the tank to enter what they see, and the card beside it for trouble;
            - that nobody switches off the room's outlets or moves the plugs;
            - a water change two or three days before the break, not on the last day.

            Nobody should come in alone against the school's rules, or travel in a storm for a tank. If nobody can come, say so now: then we look for a way together.

            {coordinator}
            {telephone}
            """,
            "Antes de las vacaciones: ¿quién cuida {tank}?",
            """
            Hola, {name}:

            Llegan las vacaciones y los peces se quedan. Ahora, en {tank}: {stage}. Eclosión probable: {likely hatch date}.

            Decida esta semana:

            - quién mira el tanque, qué días y quién le abre la puerta;
            - que tenga la etiqueta del tanque para anotar lo que ve, y la tarjeta al lado por si hay problemas;
            - que nadie corte la corriente del salón ni mueva los enchufes;
            - un cambio de agua dos o tres días antes, no el último día.

            Nadie debe entrar en contra de las reglas de la escuela ni viajar en una tormenta por un tanque. Si nadie puede ir, dígalo ahora: buscamos juntos una solución.

            {coordinator}
            {telephone}
            """)),
        new("swim-up", "Swim-up is near: first feeding", "When alevins have nearly used up their yolk.", new(
            "First feeding at {tank}: little and often",
            """
            Hello {name},

            The alevins of {tank} ({stage}) will soon leave the gravel and look for food at the surface.

            Begin when about half of them swim. A pinch as fine as dust, four or five times a school day, only as much as they take in a minute. Before that, food only fouls the water.

            Take out what is left after each feeding, test ammonia every other day, and change a fifth of the water when it shows. If fry gasp at the surface: stop feeding, more air, and ring.

            Do not begin in the last three school days before a break: better let them live on their yolk than eat with nobody there.

            {coordinator}
            {telephone}
            """,
            "Primera comida en {tank}: poco y a menudo",
            """
            Hola, {name}:

            Los alevines de {tank} ({stage}) pronto dejarán la grava y buscarán comida en la superficie.

            Empiece cuando nade más o menos la mitad. Una pizca fina como polvo, cuatro o cinco veces al día de clase, solo lo que coman en un minuto. Antes de eso la comida solo ensucia el agua.

            Saque lo que sobre después de cada comida, mida el amoníaco cada dos días y cambie una quinta parte del agua cuando aparezca. Si los peces boquean en la superficie: no dé comida, más aire, y llame.

            No empiece en los tres últimos días de clase antes de unas vacaciones: es mejor que vivan de su saco que comer sin nadie cerca.

            {coordinator}
            {telephone}
            """)),
        new("before-release", "Before release day", "In the week before fish go to the stream.", new(
            "Release day of {school}: {next release day}",
            """
            Hello {name},

            The fish of {tank} go to the stream on {next release day}.

            - Stop feeding the day before; count the fish with a second adult and write down both counts.
            - Only the site on the permit, and no fish for anybody to take home. No water, gravel or plants from the tank go into the stream.
            - Bring the bucket with a lid, battery air, ice in sealed bottles, a thermometer, towels, first aid.
            - At the water: mix stream water in slowly until both are equally warm, then let the fish swim out by themselves.

            Adults stand between children and the water. Nobody wades above the ankle, and in high water or a thunderstorm the day is put off: ring first.

            {coordinator}
            {telephone}
            """,
            "Día de liberación de {school}: {next release day}",
            """
            Hola, {name}:

            Los peces de {tank} van al arroyo el {next release day}.

            - No dé comida desde el día anterior; cuente los peces con otra persona adulta y anote las dos cuentas.
            - Solo en el sitio del permiso, y nadie se lleva peces a casa. Ni agua, ni grava, ni plantas del tanque van al arroyo.
            - Lleve el balde con tapa, aire de pilas, hielo en botellas selladas, termómetro, toallas y botiquín.
            - En el agua: mezcle poco a poco agua del arroyo hasta que las dos estén igual de frías, y deje que los peces salgan solos.

            Las personas adultas se ponen entre los niños y el agua. Nadie entra más arriba del tobillo, y con crecida o tormenta el día se aplaza: llame primero.

            {coordinator}
            {telephone}
            """)),
        new("thanks", "Thanks, and the season's numbers", "After the last release. Put in the numbers from Season totals where the … stand; a loss that is told is worth more than a round number.", new(
            "Thank you for this season",
            """
            Hello {name},

            The season is over. Thank you, and thanks to everybody who read a thermometer at {school}.

            Our numbers this season: … eggs received, … fish released, … schools.

            Before the summer: unplug (an adult, dry hands), drain, rinse without soap, dry everything, and leave the lid open. Tell us what is broken so that it is mended by autumn. No water or gravel goes into a drain that leads to a stream.

            {coordinator}
            {telephone}
            """,
            "Gracias por esta temporada",
            """
            Hola, {name}:

            La temporada terminó. Gracias a usted y a todas las personas que leyeron un termómetro en {school}.

            Nuestros números: … huevos recibidos, … peces liberados, … escuelas.

            Antes del verano: desenchufe (una persona adulta, manos secas), vacíe, enjuague sin jabón, seque todo y deje la tapa abierta. Díganos qué está roto para arreglarlo antes del otoño. Ni agua ni grava van a un desagüe que llega a un arroyo.

            {coordinator}
            {telephone}
            """)),
    ];

    public static ShippedTemplate? Find(string? key) => All.FirstOrDefault(t => t.Key == key);
}
