using Tankside.Portal.Shell;
using Tankside.Science.Eggs;

namespace Tankside.Portal.Readings;

/// <summary>A species by its common name; in Spanish it is the one that classes read.</summary>
public static class SpokenFish
{
    public static string Of(Species species, Say say) => say.IsSpanish ? ClassWords.Spanish.Fish(species) : SpeciesCodes.CommonName(species);
}
