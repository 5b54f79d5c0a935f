using Tankside.Storage;

namespace Tankside.Load.Faults;

/// <summary>How something that was sent stands in the database.</summary>
public enum Stands
{
    NotThere,
    Once,
    Half,
    Twice,
}

/// <summary>What was answered.</summary>
/// <param name="IsStored">It was told that it is stored.</param>
/// <param name="Words">What the sender reads, shortened.</param>
/// <param name="IsClear">Of a refusal: it says what became of what was sent.</param>
public sealed record Said(bool IsStored, string Words, bool IsClear = true);

/// <summary>One thing that somebody wants stored: it can be sent again as it is, and be looked for.</summary>
public sealed record Act(Func<Task<Said>> SendAsync, Func<HatcheryDb, Task<Stands>> LookAsync);

/// <summary>One way in which something is written.</summary>
/// <param name="OpenAsync">Opens the page and fills in what will be sent; the number tells one from another.</param>
/// <param name="IsSlow">It waits for a worker after the answer.</param>
public sealed record Door(string Name, Func<FaultPlace, int, Task<Act>> OpenAsync, bool IsSlow = false);
