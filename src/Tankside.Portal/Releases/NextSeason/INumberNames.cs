namespace Tankside.Portal.Releases.NextSeason;

/// <summary>What people call the numbers that a programme may set.</summary>
public interface INumberNames
{
    /// <summary>The key itself where the number is not known any more.</summary>
    string Of(string key);
}
