using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;
using Tankside.Hatchery.Readings.SetPoints;

namespace Tankside.Storage.Readings;

internal sealed class ReadingMapping : IEntityTypeConfiguration<Reading>
{
    public void Configure(EntityTypeBuilder<Reading> reading)
    {
        reading.HasOne<Tank>().WithMany().HasForeignKey(r => r.TankId);
        reading.HasIndex(r => new { r.TankId, r.SenderId }).IsUnique();
        reading.HasIndex(r => new { r.TankId, r.At });
        reading.HasIndex(r => new { r.State, r.TankId });
        reading.HasOne<ReadingImport>().WithMany().HasForeignKey(r => r.ImportId);
        reading.Property(r => r.ContentHash).HasMaxLength(32);
        reading.ComplexProperty(r => r.Seen, seen => seen.Property(s => s.Note).HasMaxLength(ObservationRules.LongestNote));
        // Two people who correct or answer the same reading at once: the second is told.
        reading.Property(r => r.CorrectedBy).IsConcurrencyToken();
        reading.Property(r => r.State).IsConcurrencyToken();
        reading.Ignore(r => r.Counts);
    }
}

internal sealed class TankDayMapping : IEntityTypeConfiguration<TankDay>
{
    public void Configure(EntityTypeBuilder<TankDay> day)
    {
        day.HasKey(d => new { d.TankId, d.Day });
        day.HasOne<Tank>().WithMany().HasForeignKey(d => d.TankId);
        day.Ignore(d => d.Dead);
        // Who of a lot was seen to hatch is asked at each class's page; said on a few of a tank's days only.
        day.HasIndex(d => d.TankId).HasFilter("hatched IS NOT NULL").HasDatabaseName("IX_tank_days_hatched");
    }
}

internal sealed class DayFactsMapping : IEntityTypeConfiguration<DayFacts>
{
    public void Configure(EntityTypeBuilder<DayFacts> facts)
    {
        facts.HasKey(f => new { f.TankId, f.Day });
        facts.HasOne<Tank>().WithMany().HasForeignKey(f => f.TankId);
    }
}

internal sealed class PastDaysMapping : IEntityTypeConfiguration<PastDays>
{
    public void Configure(EntityTypeBuilder<PastDays> past)
    {
        past.HasKey(p => p.TankId);
        past.HasOne<Tank>().WithOne().HasForeignKey<PastDays>(p => p.TankId);
    }
}

internal sealed class UnjudgedFactMapping : IEntityTypeConfiguration<UnjudgedFact>
{
    public void Configure(EntityTypeBuilder<UnjudgedFact> fact) => fact.HasIndex(f => f.TankId);
}

internal sealed class ReadingImportMapping : IEntityTypeConfiguration<ReadingImport>
{
    public void Configure(EntityTypeBuilder<ReadingImport> import)
    {
        import.HasOne<Programme>().WithMany().HasForeignKey(i => i.ProgrammeId);
        import.HasIndex(i => new { i.ProgrammeId, i.SentAt });
        import.Property(i => i.Columns).HasMaxLength(8000);
        import.Property(i => i.Version).IsConcurrencyToken();
    }
}

internal sealed class ImportedSheetMapping : IEntityTypeConfiguration<ImportedSheet>
{
    public void Configure(EntityTypeBuilder<ImportedSheet> sheet)
    {
        sheet.HasKey(s => s.ImportId);
        sheet.HasOne<ReadingImport>().WithOne().HasForeignKey<ImportedSheet>(s => s.ImportId);
    }
}

internal sealed class TankPhotoMapping : IEntityTypeConfiguration<TankPhoto>
{
    public void Configure(EntityTypeBuilder<TankPhoto> photo)
    {
        photo.HasOne<Tank>().WithMany().HasForeignKey(p => p.TankId);
        photo.HasIndex(p => new { p.TankId, p.ReceivedAt });
        photo.Property(p => p.Note).HasMaxLength(ObservationRules.LongestNote);
    }
}

internal sealed class SetPointPlanMapping : IEntityTypeConfiguration<SetPointPlan>
{
    public void Configure(EntityTypeBuilder<SetPointPlan> plan)
    {
        plan.HasOne<Tank>().WithMany().HasForeignKey(p => p.TankId);
        plan.HasIndex(p => new { p.TankId, p.MadeAt });
        plan.HasIndex(p => p.TankId).IsUnique().HasFilter("ended_at IS NULL").HasDatabaseName("IX_set_point_plans_one_open");
        plan.Property(p => p.Steps).HasMaxLength(8000);
        plan.Property(p => p.Version).IsConcurrencyToken();
    }
}
