using Tankside.Hatchery.Flags;
using Tankside.Hatchery.Flags.Leaving;
using Tankside.Hatchery.Kit;
using Tankside.Portal.Flags.FirstAidTexts;
using Tankside.Portal.Readings;
using Tankside.Science.Units;

namespace Tankside.Portal.Flags.Cards;

/// <summary>For any adult when something has stopped: how long this tank has, and first aid for each trouble.</summary>
internal static class EmergencyCard
{
    public static CardSheet Of(CardTank tank, ClassWords words)
    {
        var language = words.Language;
        (Bilingual Heading, FirstAidScript Script)[] troubles =
        [
            (new("Power cut", "Corte de luz"), FirstAid.Of(AidTopics.PowerCut, tank.Stage, tank.Aid)),
            (new("Chiller dead", "Enfriador parado"), FirstAid.Script(FlagKind.ChillerFault, tank.Stage, tank.Aid)),
            (new("Water stands still", "El agua no se mueve"), FirstAid.Script(FlagKind.PumpFault, tank.Stage, tank.Aid)),
            (new("It leaks", "Gotea o hay agua en el piso"), FirstAid.Of(AidTopics.Leak, tank.Stage, tank.Aid)),
            (new("Tap water or bleach got in", "Entró agua de la llave o blanqueador"), FirstAid.Script(FlagKind.Chlorine, tank.Stage, tank.Aid)),
        ];
        return new CardSheet(
            language, Said($"Tank {tank.Code}: emergency", $"Tanque {tank.Code}: emergencia"), tank.Where, CardWords.Printed(tank, words),
            Said("An adult does this, never a child at a plug. Air first, then cold, then call.", "Esto lo hace un adulto, nunca un niño en un enchufe. Primero aire, luego frío, luego llame."),
            [
                new(Said("How long it lasts", "Cuánto aguanta"), [.. Lasts(tank).Append(Ice(tank)).Select(l => l.In(language))]),
                .. troubles.Select(t => new CardPart(t.Heading.In(language), [.. t.Script.Say.Select(s => s.In(language))], PartLook.Steps)),
                new(Said("Mind this", "Tenga cuidado"),
                [
                    CardWords.Me(words),
                    .. troubles.SelectMany(t => t.Script.Cautions).Where(c => c != Warnings.AgencyWins).Distinct().Select(c => c.In(language)),
                ]),
            ],
            CardWords.Call(tank, words), CardWords.AgencyWins(words))
        {
            Columns = 2,
        };

        string Said(string en, string es) => new Bilingual(en, es).In(language);
    }

    private static IEnumerable<Bilingual> Lasts(CardTank tank)
    {
        if (HoursIfItStops.Of(tank.Record, tank.Now) is not { } hours)
        {
            yield return new("No fish are in it by its ledger: its hours are not reckoned.", "Según su registro no hay peces: no se calculan sus horas.");
            yield break;
        }

        var limit = AidFigures.Degrees(hours.LimitC);
        yield return Said(
            "Pump or power dead, until air is short", "Bomba o corriente cortada, hasta que falte el aire", hours.StillAir,
            new("the surface gives enough for so many", "la superficie da bastante para tantos"));
        yield return Said(
            $"Chiller dead, pump running, until {limit.En}", $"Enfriador parado y bomba andando, hasta {limit.Es}", hours.ChillerHeat,
            new("the usual room does not warm it so far", "el salón no la calienta tanto"));
        yield return Said(
            $"No power, until {limit.En}", $"Sin corriente, hasta {limit.Es}", hours.PowerHeat, new("the usual room does not warm it so far", "el salón no la calienta tanto"));
        yield return new(
            $"Counted from {AidFigures.Degrees(tank.DialC).En} in a room of {AidFigures.Degrees(tank.Record.Tank.RoomC).En}, computed and not measured: the thermometer decides.",
            $"Contado desde {AidFigures.Degrees(tank.DialC).Es} en un salón a {AidFigures.Degrees(tank.Record.Tank.RoomC).Es}, calculado y no medido: decide el termómetro.");
    }

    private static Bilingual Said(string en, string es, Band? hours, Bilingual never)
    {
        var about = hours is { } band ? CardWords.About(band) : never;
        return new($"{en}: {about.En}.", $"{es}: {about.Es}.");
    }

    private static Bilingual Ice(CardTank tank)
    {
        var (volume, hold) = (AidFigures.Volume(tank.Record.Tank.Litres), AidFigures.Degrees(tank.DialC));
        if (IcePlan.For(tank.Record.Tank.Litres, tank.Record.Tank.Jacket, tank.Record.Tank.RoomC, tank.DialC) is not { } ice)
        {
            return new($"Ice: none is needed, its room is no warmer than {hold.En}.", $"Hielo: no hace falta, el salón no está a más de {hold.Es}.");
        }

        var hours = Math.Floor(ice.ChangeHours);
        return new(
            $"Ice for its {volume.En}: up to {ice.BottlesADay} frozen two-litre bottles a day hold {hold.En}; {ice.AtATime} float at a time, changed every {hours:0} hours.",
            $"Hielo para sus {volume.Es}: hasta {ice.BottlesADay} botellas congeladas de dos litros al día mantienen {hold.Es}; {ice.AtATime} flotando a la vez, cambiadas cada {hours:0} horas.");
    }
}
