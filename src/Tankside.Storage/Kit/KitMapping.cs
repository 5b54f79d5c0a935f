using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Tankside.Hatchery.Kit;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;

namespace Tankside.Storage.Kit;

internal sealed class KitItemMapping : IEntityTypeConfiguration<KitItem>
{
    public void Configure(EntityTypeBuilder<KitItem> item)
    {
        item.ToTable("KitItems");
        item.HasOne<Programme>().WithMany().HasForeignKey(k => k.ProgrammeId);
        item.HasOne<Tank>().WithMany().HasForeignKey(k => k.InTankId);
        item.HasOne<Tank>().WithMany().HasForeignKey(k => k.ReservedForTankId);
        item.HasOne<School>().WithMany().HasForeignKey(k => k.SchoolId);
        item.HasIndex(k => new { k.ProgrammeId, k.Serial }).IsUnique();
        item.Ignore(k => k.IsSpare);
        item.Property(k => k.Version).IsConcurrencyToken();
    }
}
