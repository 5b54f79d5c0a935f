using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.ChangeTracking;

namespace Tankside.Storage;

/// <summary>
/// Raises the version of every row that changes. The version is the concurrency token on both databases: whoever saves second is told.
/// </summary>
internal static class Versions
{
    public const string Name = "Version";

    public static void Raise(ChangeTracker tracker)
    {
        foreach (var entry in tracker.Entries().Where(e => e.State == EntityState.Modified))
        {
            if (entry.Metadata.FindProperty(Name) is { ClrType: { } type } && type == typeof(int))
            {
                var version = entry.Property(Name);
                version.CurrentValue = (int)version.OriginalValue! + 1;
            }
        }
    }
}
