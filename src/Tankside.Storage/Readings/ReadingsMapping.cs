using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Readings;

namespace Tankside.Storage.Readings;

internal sealed class ReadingMapping : IEntityTypeConfiguration<Reading>
{
    public void Configure(EntityTypeBuilder<Reading> reading)
    {
        reading.HasOne<Tank>().WithMany().HasForeignKey(r => r.TankId);
        reading.HasIndex(r => new { r.TankId, r.SenderId }).IsUnique();
        reading.HasIndex(r => new { r.TankId, r.At });
        reading.HasIndex(r => new { r.State, r.TankId });
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
    }
}

internal sealed class UnjudgedFactMapping : IEntityTypeConfiguration<UnjudgedFact>
{
    public void Configure(EntityTypeBuilder<UnjudgedFact> fact) => fact.HasIndex(f => f.TankId);
}
