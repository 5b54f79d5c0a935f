using Tankside.Portal.Releases.NextSeason;

namespace Tankside.Portal.Flags.Numbers;

internal sealed class NumberNames : INumberNames
{
    public string Of(string key) => NumberWords.Find(key) is { } found ? found.Word.Name : key;
}
