namespace Tankside.Portal.People;

public sealed record SchoolChoice(Guid Id, string Name);

/// <summary>A tank to choose.</summary>
public sealed record TankChoice(Guid Id, string Code, string School);

/// <summary>What the people's pages need to know about a programme's places, told by whoever keeps them.</summary>
public interface IPlaceNames
{
    /// <summary>The schools of a programme by name.</summary>
    Task<IReadOnlyList<SchoolChoice>> SchoolsAsync(Guid programmeId, CancellationToken cancel);

    /// <summary>The tanks of a programme, school by school.</summary>
    Task<IReadOnlyList<TankChoice>> TanksAsync(Guid programmeId, CancellationToken cancel);

    /// <summary>The rooms that name the person as whom to ring when the teacher is not reached, with the name and number kept there.</summary>
    Task<IReadOnlyList<string>> RoomsBackedUpByAsync(Guid personId, CancellationToken cancel);

    /// <summary>The codes of a programme's tanks by their id.</summary>
    Task<IReadOnlyDictionary<Guid, string>> TankCodesAsync(Guid programmeId, IReadOnlyCollection<Guid> tankIds, CancellationToken cancel);
}
