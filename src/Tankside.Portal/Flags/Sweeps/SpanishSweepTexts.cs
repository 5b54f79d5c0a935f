using System.Globalization;
using Tankside.Hatchery.Places;

namespace Tankside.Portal.Flags.Sweeps;

internal sealed class SpanishSweepTexts : SweepTexts
{
    private const string Plugs = "Enchufes y cables: solo una persona adulta con las manos secas. Las reglas de su escuela y de la agencia van primero.";

    protected override CultureInfo Culture => CultureInfo.GetCultureInfo("es");

    public override string Subject(AreaSweep sweep) => sweep.Reason switch
    {
        SweepReason.PowerCut => $"Corte de luz{In(sweep)}: ¿cómo está su tanque?",
        SweepReason.Snow => $"Nieve{In(sweep)}: ¿cómo está su tanque?",
        SweepReason.Flood => $"Inundación{In(sweep)}: ¿cómo está su tanque?",
        SweepReason.Other => $"Problemas{In(sweep)}: ¿cómo está su tanque?",
    };

    public override string Happened(SweepMessage message)
    {
        var sweep = message.Sweep;
        var what = sweep.Reason switch
        {
            SweepReason.PowerCut => "No hay luz",
            SweepReason.Snow => "Las escuelas están cerradas por nieve",
            SweepReason.Flood => "Las escuelas están cerradas por una inundación",
            SweepReason.Other => "Hay problemas",
        };
        var until = sweep.Until is { } end ? $"; se espera que termine hacia {When(message, end)}" : "";
        return $"{what}{In(sweep)} desde {When(message, sweep.From)}{until}.{(sweep.Note is { } note ? $" {note}" : "")}";
    }

    public override IReadOnlyList<string> Steps(SweepReason reason) => reason switch
    {
        SweepReason.PowerCut =>
        [
            "Primero aire a pilas: la piedra en el agua y que salgan burbujas. Si no hay, vierta agua con un vaso limpio, una y otra vez.",
            "Después hielo: botellas congeladas bien cerradas, en doble bolsa. Nada de hielo suelto. Una manta alrededor del tanque.",
            "No dar comida. Tapa puesta, luces apagadas.",
            Plugs,
            "Cuando vuelva la luz: ¿se mueve el agua y marca el enfriador la temperatura fijada?",
        ],
        SweepReason.Snow or SweepReason.Flood =>
        [
            "No viaje por el tanque, y entre en un edificio cerrado solo con permiso.",
            "¿Está el conserje o alguien de la oficina? Pida que mire: ¿se mueve el agua, hay burbujas, qué dice el termómetro dentro del agua?",
            "No dar comida. Tapa puesta.",
            reason == SweepReason.Flood ? "No se acerque a los cables del tanque si hay agua en el suelo; eso es para el electricista del edificio. " + Plugs : Plugs,
        ],
        _ => ["Mire el tanque si puede hacerlo sin peligro: ¿se mueve el agua, hay burbujas, qué dice el termómetro dentro del agua?", "No dar comida hasta saberlo. Tapa puesta.", Plugs],
    };

    public override string Letter(SweepMessage message, string name, Uri link) =>
        $"""
        Hola, {name}:

        {Happened(message)}

        Responda con un solo toque, sin contraseña:

        {link}

        Si puede llegar al tanque, en este orden:

        {Numbered(message.Sweep.Reason)}

        Si no puede llegar, díganoslo: así buscamos a alguien que pueda.
        El enlace es solo para usted. No escriba el nombre de ningún niño en una nota.{(message.Contact is { } contact ? $"\nTambién puede enviar un mensaje de texto o llamar a {contact}." : "")}

        {message.Programme}, con Tankside
        """;

    public override string ForTelephone(SweepMessage message, string? link)
    {
        var answer = link is null
            ? "Responda BIEN, SIN LUZ, PROBLEMA o NADIE, y la temperatura del agua si puede leerla."
            : $"Responda con un toque: {link}";
        var first = message.Sweep.Reason == SweepReason.PowerCut
            ? "Primero aire a pilas, después hielo en botellas cerradas. Sin comida, tapa puesta. Enchufes: un adulto con las manos secas."
            : "No viaje por el tanque. Sin comida, tapa puesta.";
        return $"{message.Programme}: {Happened(message)} {answer} {first}";
    }

    private static string In(AreaSweep sweep) => sweep.Area.Length == 0 ? "" : $" en la zona {sweep.Area}";
}
