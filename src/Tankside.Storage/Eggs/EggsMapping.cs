using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Eggs.Runs;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Seasons;

namespace Tankside.Storage.Eggs;

internal sealed class EggLotMapping : IEntityTypeConfiguration<EggLot>
{
    public void Configure(EntityTypeBuilder<EggLot> lot)
    {
        lot.HasOne<Season>().WithMany().HasForeignKey(l => l.SeasonId);
        lot.HasIndex(l => new { l.SeasonId, l.Code }).IsUnique();
        lot.Property(l => l.KnownBy).HasDefaultValue(StartKnownBy.MeanTemperature);
        lot.Property(l => l.DailyC).HasMaxLength(3000);
        lot.Property(l => l.UnitsTyped).HasMaxLength(100);
        lot.Property(l => l.HealthCertificate).HasMaxLength(200);
        lot.Property(l => l.Disinfection).HasMaxLength(300);
        lot.Property(l => l.Note).HasMaxLength(2000);
        lot.Property(l => l.Version).IsConcurrencyToken();
    }
}

internal sealed class OwnStageTableMapping : IEntityTypeConfiguration<OwnStageTable>
{
    public void Configure(EntityTypeBuilder<OwnStageTable> table)
    {
        table.HasOne<Programme>().WithMany().HasForeignKey(t => t.ProgrammeId);
        table.HasIndex(t => new { t.ProgrammeId, t.Species, t.Stage }).IsUnique();
        table.Property(t => t.Points).HasMaxLength(2000);
        table.Property(t => t.Source).HasMaxLength(500);
        table.Property(t => t.Version).IsConcurrencyToken();
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

internal sealed class AllotmentChangeMapping : IEntityTypeConfiguration<AllotmentChange>
{
    public void Configure(EntityTypeBuilder<AllotmentChange> change)
    {
        change.HasOne<Season>().WithMany().HasForeignKey(c => c.SeasonId);
        change.HasOne<Tank>().WithMany().HasForeignKey(c => c.TankId);
        change.HasIndex(c => new { c.SeasonId, c.At });
        change.Property(c => c.Why).HasMaxLength(400);
    }
}

internal sealed class ReadyCheckMapping : IEntityTypeConfiguration<ReadyCheck>
{
    public void Configure(EntityTypeBuilder<ReadyCheck> check)
    {
        check.HasOne<Season>().WithMany().HasForeignKey(c => c.SeasonId);
        check.HasOne<Tank>().WithMany().HasForeignKey(c => c.TankId);
        check.HasIndex(c => new { c.TankId, c.At });
        check.Property(c => c.Note).HasMaxLength(400);
    }
}

internal sealed class ReadyOverrideMapping : IEntityTypeConfiguration<ReadyOverride>
{
    public void Configure(EntityTypeBuilder<ReadyOverride> signed)
    {
        signed.HasOne<Season>().WithMany().HasForeignKey(s => s.SeasonId);
        signed.HasOne<Tank>().WithMany().HasForeignKey(s => s.TankId);
        signed.HasIndex(s => new { s.SeasonId, s.TankId }).IsUnique().HasFilter("withdrawn_at IS NULL").HasDatabaseName("IX_ready_overrides_one_open");
        signed.Property(s => s.SignedAs).HasMaxLength(100);
        signed.Property(s => s.Reason).HasMaxLength(400);
        signed.Property(s => s.Version).IsConcurrencyToken();
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
