using Tankside.Portal.Accounts;

namespace Tankside.Portal.Eggs.Runs;

/// <summary>Which tanks eggs may not come to; who judges tanks knows it.</summary>
public interface IEggGate
{
    /// <summary>The tanks that are a no-go, each with what is missing, in words; a tank that is a go, by itself or by a signature, is left out.</summary>
    Task<IReadOnlyDictionary<Guid, string>> NoGoAsync(CurrentUser user, IReadOnlyList<Guid> tankIds, CancellationToken cancel);
}
