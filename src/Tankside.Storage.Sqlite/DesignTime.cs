using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Design;

namespace Tankside.Storage.Sqlite;

/// <summary>Lets dotnet ef make migrations for this database without starting the portal; it connects to nothing.</summary>
public sealed class DesignTime : IDesignTimeDbContextFactory<HatcheryDb>
{
    public HatcheryDb CreateDbContext(string[] args) => new(new DbContextOptionsBuilder<HatcheryDb>()
        .UseSqlite("Data Source=design.db", x => x.MigrationsAssembly("Tankside.Storage.Sqlite"))
        .Options);
}
