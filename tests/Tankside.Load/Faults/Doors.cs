namespace Tankside.Load.Faults;

/// <summary>Every way in which something is written over the wire.</summary>
public static class Doors
{
    public static IReadOnlyList<Door> All { get; } =
    [
        ReadingDoors.ApiBatch, ReadingDoors.ApiReading, ReadingDoors.ClassForm, ReadingDoors.Outbox, ReadingDoors.SignedIn, ReadingDoors.Week,
        FileDoors.Import, FileDoors.Places, FileDoors.Photo,
        WorkDoors.LedgerLine, WorkDoors.Release, WorkDoors.Tick, WorkDoors.Kit, WorkDoors.Announcement,
    ];
}
