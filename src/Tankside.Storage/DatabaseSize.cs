using Microsoft.EntityFrameworkCore;

namespace Tankside.Storage;

/// <summary>How much room the whole database takes, bytes.</summary>
public static class DatabaseSize
{
    public static Task<long> AskAsync(HatcheryDb db, CancellationToken cancel) => db.Database
        .SqlQueryRaw<long>(db.Database.IsNpgsql()
            ? "SELECT pg_database_size(current_database()) AS \"Value\""
            : "SELECT page_count * page_size AS \"Value\" FROM pragma_page_count(), pragma_page_size()")
        .SingleAsync(cancel);
}
