using Tankside.Storage;

namespace Tankside.Portal.Commands.Backups;

/// <summary>A table of a backup: how many rows, and in PostgreSQL the columns of each.</summary>
public sealed record BackedUpTable(string Name, long Rows, IReadOnlyList<string> Columns);

/// <summary>A file inside a backup, with the SHA-256 of what is in it.</summary>
public sealed record BackedUpPart(string Name, string Sha256);

/// <summary>What a backup says of itself, in about.json.</summary>
/// <param name="Format">Raised when a program that does not know the new form could not read it.</param>
/// <param name="Program">The version that wrote it.</param>
/// <param name="Schema">The last step of the schema that was applied.</param>
public sealed record BackupAbout(
    int Format, string Program, DateTime At, DatabaseKind Database, string Schema, IReadOnlyList<BackedUpTable> Tables, IReadOnlyList<BackedUpPart> Parts)
{
    public const int NewestFormat = 1;

    /// <summary>The same number everywhere: the version of the build.</summary>
    public static string ThisProgram { get; } = typeof(BackupAbout).Assembly.GetName().Version?.ToString(3) ?? "0.0.0";

    public long Rows => Tables.Sum(t => t.Rows);

    public string Words => FormattableString.Invariant($"backup of {At:yyyy-MM-dd HH:mm} UTC, {Database}, program {Program}, schema {Schema}, {Tables.Count} tables, {Rows} rows");
}
