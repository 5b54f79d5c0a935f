using Microsoft.EntityFrameworkCore.Metadata;
using Microsoft.EntityFrameworkCore.Migrations;
using Microsoft.EntityFrameworkCore.Migrations.Operations;

namespace Tankside.Storage;

/// <summary>
/// Steps of the schema that are there whole or not at all. EF leaves the transaction in the middle of a step that makes a table anew, to let
/// its rows go unwatched by foreign keys; a program killed there leaves half a step in the file, which no later start gets over. Here the whole
/// connection goes unwatched, so that no step has to leave.
/// </summary>
internal sealed class SqliteMigrations(MigrationsSqlGeneratorDependencies dependencies, IRelationalAnnotationProvider annotations)
    : SqliteMigrationsSqlGenerator(dependencies, annotations)
{
    /// <summary>Of the connection that these steps need.</summary>
    public const string Unwatched = "Foreign Keys=False;Pooling=False";

    private const string Watch = "PRAGMA foreign_keys";

    public override IReadOnlyList<MigrationCommand> Generate(IReadOnlyList<MigrationOperation> operations, IModel? model = null, MigrationsSqlGenerationOptions options = default) =>
        [.. base.Generate(operations, model, options).Where(c => !c.CommandText.StartsWith(Watch, StringComparison.Ordinal))];
}
