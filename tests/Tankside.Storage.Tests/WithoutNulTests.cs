using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Tankside.Testing;

namespace Tankside.Storage.Tests;

/// <summary>A NUL in what somebody sends is nobody's text.</summary>
public class WithoutNulTests
{
    [Theory, BothDatabases]
    public async Task A_text_with_a_NUL_is_stored_and_looked_for_without_it(DatabaseKind kind)
    {
        await using var database = await TestDatabase.CreateAsync(kind);
        await using var services = new ServiceCollection().AddSingleton(TimeProvider.System).AddHatcheryDb(database.Choice).BuildServiceProvider();
        await using var db = await services.GetRequiredService<IDbContextFactory<HatcheryDb>>().CreateDbContextAsync();
        db.Add(new TestProgramme("Reed\0 Valley", "America/Denver", 'A').Programme);

        await db.SaveChangesAsync();

        var asked = "Reed Val\0ley";
        Assert.Equal("Reed Valley", await db.Programmes.AsNoTracking().Where(p => p.Name == asked).Select(p => p.Name).SingleAsync());
    }
}
