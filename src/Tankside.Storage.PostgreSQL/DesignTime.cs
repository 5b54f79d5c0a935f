using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Design;

namespace Tankside.Storage.PostgreSQL;

/// <summary>Lets dotnet ef make migrations for this database without starting the portal; it connects to nothing.</summary>
public sealed class DesignTime : IDesignTimeDbContextFactory<HatcheryDb>
{
    public HatcheryDb CreateDbContext(string[] args) => new(new DbContextOptionsBuilder<HatcheryDb>()
        .UseNpgsql("Host=design", x => x.MigrationsAssembly("Tankside.Storage.PostgreSQL"))
        .Options);
}
