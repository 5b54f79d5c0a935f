using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Tankside.Hatchery.Seasons;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Guards;

/// <summary>The migrations of both databases lead to the model as it is.</summary>
public class MigrationTests
{
    [Theory, BothDatabases]
    public void The_migrations_lead_to_the_model(DatabaseKind kind)
    {
        using var db = new HatcheryDb(Unconnected(kind).Options);

        Assert.False(db.Database.HasPendingModelChanges());
    }

    [Theory, BothDatabases]
    public void A_change_of_the_model_without_a_migration_is_found(DatabaseKind kind)
    {
        using var db = new HatcheryDb(Unconnected(kind).ReplaceService<IModelCustomizer, WithOneColumnMore>().Options);

        Assert.True(db.Database.HasPendingModelChanges());
    }

    [Theory, BothDatabases]
    public async Task Every_migration_was_applied_to_the_databases_that_tests_run_on(DatabaseKind kind)
    {
        await using var database = await TestDatabase.CreateAsync(kind);
        await using var db = database.CreateDbContext();

        Assert.NotEmpty(db.Database.GetMigrations());
        Assert.Empty(await db.Database.GetPendingMigrationsAsync());
    }

    private static DbContextOptionsBuilder<HatcheryDb> Unconnected(DatabaseKind kind)
    {
        var builder = new DbContextOptionsBuilder<HatcheryDb>();
        Databases.Use(builder, new DatabaseChoice(kind, kind == DatabaseKind.Sqlite ? "Data Source=unused.db" : "Host=unused"));
        return builder;
    }

    private sealed class WithOneColumnMore(ModelCustomizerDependencies dependencies) : RelationalModelCustomizer(dependencies)
    {
        public override void Customize(ModelBuilder modelBuilder, DbContext context)
        {
            base.Customize(modelBuilder, context);
            modelBuilder.Entity<Season>().Property<string>("motto");
        }
    }
}
