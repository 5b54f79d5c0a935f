using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Seasons;

namespace Tankside.Storage.Places;

internal sealed class SchoolMapping : IEntityTypeConfiguration<School>
{
    public void Configure(EntityTypeBuilder<School> school)
    {
        school.HasOne<Programme>().WithMany().HasForeignKey(s => s.ProgrammeId);
        school.HasIndex(s => new { s.ProgrammeId, s.Name }).IsUnique();
        school.Property(s => s.Version).IsConcurrencyToken();
    }
}

internal sealed class ClosureMapping : IEntityTypeConfiguration<Closure>
{
    public void Configure(EntityTypeBuilder<Closure> closure)
    {
        closure.HasOne<Programme>().WithMany().HasForeignKey(c => c.ProgrammeId);
        closure.HasOne<School>().WithMany().HasForeignKey(c => c.SchoolId);
    }
}

internal sealed class AreaSweepMapping : IEntityTypeConfiguration<AreaSweep>
{
    public void Configure(EntityTypeBuilder<AreaSweep> sweep)
    {
        sweep.HasOne<Programme>().WithMany().HasForeignKey(s => s.ProgrammeId);
        sweep.HasIndex(s => new { s.ProgrammeId, s.EndedAt });
        sweep.Property(s => s.Version).IsConcurrencyToken();
    }
}

internal sealed class WaysStampMapping : IEntityTypeConfiguration<WaysStamp>
{
    // No foreign key: the trigger also runs while a programme is removed with all it has.
    public void Configure(EntityTypeBuilder<WaysStamp> stamp) => stamp.HasKey(s => s.ProgrammeId);
}

internal sealed class SweepReplyMapping : IEntityTypeConfiguration<SweepReply>
{
    public void Configure(EntityTypeBuilder<SweepReply> reply)
    {
        reply.HasOne<AreaSweep>().WithMany().HasForeignKey(r => r.SweepId);
        reply.HasOne<School>().WithMany().HasForeignKey(r => r.SchoolId);
        reply.HasIndex(r => r.SecretHash).IsUnique();
        reply.Property(r => r.Version).IsConcurrencyToken();
    }
}

internal sealed class ClassroomMapping : IEntityTypeConfiguration<Classroom>
{
    public void Configure(EntityTypeBuilder<Classroom> room)
    {
        room.HasOne<School>().WithMany().HasForeignKey(r => r.SchoolId);
        room.HasIndex(r => new { r.SchoolId, r.Name }).IsUnique();
        room.Property(r => r.Version).IsConcurrencyToken();
    }
}

internal sealed class TankMapping : IEntityTypeConfiguration<Tank>
{
    public void Configure(EntityTypeBuilder<Tank> tank)
    {
        tank.HasOne<Programme>().WithMany().HasForeignKey(t => t.ProgrammeId);
        tank.HasOne<Classroom>().WithMany().HasForeignKey(t => t.ClassroomId);
        tank.HasIndex(t => t.Code).IsUnique();
        tank.Property(t => t.Version).IsConcurrencyToken();
    }
}

internal sealed class SeasonTankMapping : IEntityTypeConfiguration<SeasonTank>
{
    public void Configure(EntityTypeBuilder<SeasonTank> part)
    {
        part.HasKey(p => new { p.SeasonId, p.TankId });
        part.HasOne<Season>().WithMany().HasForeignKey(p => p.SeasonId);
        part.HasOne<Tank>().WithMany().HasForeignKey(p => p.TankId);
    }
}

internal sealed class TakenOutPlaceMapping : IEntityTypeConfiguration<TakenOutPlace>
{
    public void Configure(EntityTypeBuilder<TakenOutPlace> place)
    {
        place.HasOne<Programme>().WithMany().HasForeignKey(p => p.ProgrammeId);
        place.HasIndex(p => new { p.ProgrammeId, p.TakenAt });
        place.Property(p => p.Content).HasMaxLength(200_000);
    }
}

internal sealed class CalendarFeedMapping : IEntityTypeConfiguration<CalendarFeed>
{
    public void Configure(EntityTypeBuilder<CalendarFeed> feed)
    {
        feed.HasOne<Programme>().WithMany().HasForeignKey(f => f.ProgrammeId);
        feed.HasOne<School>().WithMany().HasForeignKey(f => f.SchoolId);
        feed.HasOne<Tank>().WithMany().HasForeignKey(f => f.TankId);
        feed.HasIndex(f => f.SecretHash).IsUnique();
    }
}

internal sealed class RoomCodeMapping : IEntityTypeConfiguration<RoomCode>
{
    public void Configure(EntityTypeBuilder<RoomCode> code)
    {
        code.HasOne<Tank>().WithMany().HasForeignKey(c => c.TankId);
        code.HasIndex(c => c.Code).IsUnique();
    }
}

internal sealed class PlaceImportMapping : IEntityTypeConfiguration<PlaceImport>
{
    public void Configure(EntityTypeBuilder<PlaceImport> import)
    {
        import.HasOne<Programme>().WithMany().HasForeignKey(i => i.ProgrammeId);
        import.HasIndex(i => new { i.ProgrammeId, i.SentAt });
        import.Property(i => i.Columns).HasMaxLength(20_000);
        import.Property(i => i.Version).IsConcurrencyToken();
    }
}

internal sealed class PlaceImportSheetMapping : IEntityTypeConfiguration<PlaceImportSheet>
{
    public void Configure(EntityTypeBuilder<PlaceImportSheet> sheet)
    {
        sheet.HasKey(s => s.ImportId);
        sheet.HasOne<PlaceImport>().WithOne().HasForeignKey<PlaceImportSheet>(s => s.ImportId);
    }
}

internal sealed class PlaceImportLineMapping : IEntityTypeConfiguration<PlaceImportLine>
{
    public void Configure(EntityTypeBuilder<PlaceImportLine> line)
    {
        line.HasKey(l => new { l.ImportId, l.Number });
        line.HasOne<PlaceImport>().WithMany().HasForeignKey(l => l.ImportId);
        line.Property(l => l.Fields).HasMaxLength(20_000);
        line.Property(l => l.Stayed).HasMaxLength(2000);
    }
}
