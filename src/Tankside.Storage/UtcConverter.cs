using Microsoft.EntityFrameworkCore.Storage.ValueConversion;

namespace Tankside.Storage;

/// <summary>Writes and reads every instant as UTC, so that SQLite and PostgreSQL order and compare them alike.</summary>
internal sealed class UtcConverter() : ValueConverter<DateTime, DateTime>(
    write => DateTime.SpecifyKind(write, DateTimeKind.Utc),
    read => DateTime.SpecifyKind(read, DateTimeKind.Utc));
