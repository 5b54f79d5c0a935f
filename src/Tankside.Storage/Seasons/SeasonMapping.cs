using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Seasons;

namespace Tankside.Storage.Seasons;

internal sealed class SeasonMapping : IEntityTypeConfiguration<Season>
{
    public void Configure(EntityTypeBuilder<Season> season)
    {
        season.HasOne<Programme>().WithMany().HasForeignKey(s => s.ProgrammeId);
        season.HasIndex(s => new { s.ProgrammeId, s.Name }).IsUnique();
        season.Property(s => s.Version).IsConcurrencyToken();
    }
}
