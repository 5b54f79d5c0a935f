using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Eggs.Runs;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Seasons;

namespace Tankside.Storage.Eggs;

internal sealed class EggLotMapping : IEntityTypeConfiguration<EggLot>
{
    public void Configure(EntityTypeBuilder<EggLot> lot)
    {
        lot.HasOne<Season>().WithMany().HasForeignKey(l => l.SeasonId);
        lot.HasIndex(l => new { l.SeasonId, l.Code }).IsUnique();
        lot.Property(l => l.Version).IsConcurrencyToken();
    }
}

internal sealed class AllotmentMapping : IEntityTypeConfiguration<Allotment>
{
    public void Configure(EntityTypeBuilder<Allotment> allotment)
    {
        allotment.HasOne<Season>().WithMany().HasForeignKey(a => a.SeasonId);
        allotment.HasOne<Tank>().WithMany().HasForeignKey(a => a.TankId);
        allotment.HasOne<EggLot>().WithMany().HasForeignKey(a => a.LotId);
        allotment.HasIndex(a => new { a.SeasonId, a.TankId }).IsUnique();
        allotment.Property(a => a.Version).IsConcurrencyToken();
    }
}

internal sealed class ReceiptMapping : IEntityTypeConfiguration<Receipt>
{
    public void Configure(EntityTypeBuilder<Receipt> receipt)
    {
        receipt.HasOne<Season>().WithMany().HasForeignKey(r => r.SeasonId);
        receipt.HasOne<Tank>().WithMany().HasForeignKey(r => r.TankId);
        receipt.HasOne<EggLot>().WithMany().HasForeignKey(r => r.LotId);
        receipt.HasOne<RunStop>().WithMany().HasForeignKey(r => r.StopId);
        receipt.HasIndex(r => r.StopId).IsUnique();
        receipt.HasIndex(r => new { r.SeasonId, r.TankId });
    }
}
