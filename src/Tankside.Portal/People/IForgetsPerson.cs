using Tankside.Storage;

namespace Tankside.Portal.People;

/// <summary>Who is to be forgotten, how they are called from then on, and when.</summary>
public sealed record Forgotten(Guid PersonId, string CalledNow, DateTime At);

/// <summary>A word's part in forgetting a person: names and numbers that it keeps of them, and what lets them in or asks them. Saved by the caller.</summary>
public interface IForgetsPerson
{
    Task ForgetAsync(HatcheryDb db, Forgotten person, CancellationToken cancel);
}
