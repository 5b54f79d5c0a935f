using System.Globalization;
using Tankside.Hatchery.Places;

namespace Tankside.Portal.Places;

/// <summary>A school's hours and water in words.</summary>
public static class SchoolWords
{
    public static string Hours(School school) => Between(school.OpensAt, school.ClosesAt);

    /// <summary>Null where a driver may come as long as the school is open.</summary>
    public static string? Deliveries(School school) =>
        school.DeliverFrom is null && school.DeliverBy is null ? null : Between(school.TakesDeliveries.From, school.TakesDeliveries.By);

    public static string Of(Disinfectant disinfectant) => disinfectant switch
    {
        Disinfectant.Unknown => "not known",
        Disinfectant.None => "no disinfectant",
        Disinfectant.Chlorine => "chlorine",
        Disinfectant.Chloramine => "chloramine",
    };

    private static string Between(TimeOnly from, TimeOnly to) => string.Create(CultureInfo.InvariantCulture, $"{from:HH:mm} to {to:HH:mm}");
}
