using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Microsoft.EntityFrameworkCore.Storage.ValueConversion;
using Tankside.Hatchery.Flags;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;

namespace Tankside.Storage.Flags;

internal sealed class FlagMapping : IEntityTypeConfiguration<Flag>
{
    public void Configure(EntityTypeBuilder<Flag> flag)
    {
        flag.HasOne<Tank>().WithMany().HasForeignKey(f => f.TankId);
        // At most one open flag of a kind at a tank, also when two portals judge at once.
        flag.HasIndex(f => new { f.TankId, f.Kind }).IsUnique().HasFilter("state = 'Open'").HasDatabaseName("IX_flags_one_open");
        flag.HasIndex(f => new { f.ProgrammeId, f.CauseBy, f.CauseCode }).IsUnique().HasFilter("state = 'Open' AND cause_by IS NOT NULL").HasDatabaseName("IX_flags_one_open_cause");
        flag.HasIndex(f => new { f.TankId, f.State });
        flag.HasIndex(f => new { f.ProgrammeId, f.State, f.SettledAt });
        flag.Property(f => f.Evidence).HasConversion<JsonText<Evidence>>().HasMaxLength(8000);
        flag.Property(f => f.Hazard).HasConversion<JsonText<Hazard>>().HasMaxLength(1000);
        flag.Ignore(f => f.RestsUntil);
        flag.Property(f => f.Version).IsConcurrencyToken();
    }
}

internal sealed class FlagEventMapping : IEntityTypeConfiguration<FlagEvent>
{
    public void Configure(EntityTypeBuilder<FlagEvent> line)
    {
        line.HasOne<Flag>().WithMany().HasForeignKey(e => e.FlagId);
        line.HasIndex(e => new { e.FlagId, e.Id });
        line.Property(e => e.Note).HasMaxLength(2000);
        line.Property(e => e.Evidence).HasConversion<JsonText<Evidence>>().HasMaxLength(8000);
    }
}

internal sealed class RehearsalMorningMapping : IEntityTypeConfiguration<RehearsalMorning>
{
    public void Configure(EntityTypeBuilder<RehearsalMorning> morning)
    {
        morning.ToTable("Rehearsals");
        morning.HasOne<Programme>().WithMany().HasForeignKey(m => m.ProgrammeId);
        morning.HasIndex(m => new { m.ProgrammeId, m.StartedAt });
        morning.PrimitiveCollection(m => m.Called).HasMaxLength(8000);
        morning.Property(m => m.Version).IsConcurrencyToken();
    }
}

/// <summary>A value object as JSON text; the type's own attributes say how.</summary>
internal sealed class JsonText<T>() : ValueConverter<T, string>(
    value => JsonSerializer.Serialize(value, JsonSerializerOptions.Web),
    text => JsonSerializer.Deserialize<T>(text, JsonSerializerOptions.Web)!)
    where T : class;
