using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Releases;
using Tankside.Hatchery.Releases.Bookings;
using Tankside.Hatchery.Seasons;

namespace Tankside.Storage.Releases;

internal sealed class LedgerMapping : IEntityTypeConfiguration<LedgerEntry>
{
    public void Configure(EntityTypeBuilder<LedgerEntry> entry)
    {
        entry.ToTable("Ledger");
        entry.HasOne<Season>().WithMany().HasForeignKey(e => e.SeasonId);
        entry.HasOne<Tank>().WithMany().HasForeignKey(e => e.TankId);
        entry.HasIndex(e => new { e.TankId, e.SenderId }).IsUnique();
        entry.HasIndex(e => new { e.SeasonId, e.TankId });
        entry.HasIndex(e => new { e.TankId, e.Reading });
        entry.HasIndex(e => e.TransferId).HasFilter("transfer_id IS NOT NULL");
    }
}

internal sealed class SiteMapping : IEntityTypeConfiguration<ReleaseSite>
{
    public void Configure(EntityTypeBuilder<ReleaseSite> site)
    {
        site.HasOne<Programme>().WithMany().HasForeignKey(s => s.ProgrammeId);
        site.HasIndex(s => new { s.ProgrammeId, s.Name }).IsUnique();
        site.Property(s => s.Version).IsConcurrencyToken();
    }
}

internal sealed class PermitMapping : IEntityTypeConfiguration<Permit>
{
    public void Configure(EntityTypeBuilder<Permit> permit)
    {
        permit.HasOne<Programme>().WithMany().HasForeignKey(p => p.ProgrammeId);
        permit.HasIndex(p => new { p.ProgrammeId, p.Number }).IsUnique();
        permit.Property(p => p.Version).IsConcurrencyToken();
    }
}

internal sealed class PermitPaperMapping : IEntityTypeConfiguration<PermitPaper>
{
    public void Configure(EntityTypeBuilder<PermitPaper> paper)
    {
        paper.HasOne<Permit>().WithMany().HasForeignKey(p => p.PermitId);
        paper.HasIndex(p => new { p.PermitId, p.ReceivedAt });
    }
}

internal sealed class ReleaseMapping : IEntityTypeConfiguration<Release>
{
    public void Configure(EntityTypeBuilder<Release> release)
    {
        release.HasOne<Season>().WithMany().HasForeignKey(r => r.SeasonId);
        release.HasOne<Tank>().WithMany().HasForeignKey(r => r.TankId);
        release.HasOne<ReleaseSite>().WithMany().HasForeignKey(r => r.SiteId);
        release.HasOne<Permit>().WithMany().HasForeignKey(r => r.PermitId);
        release.HasIndex(r => new { r.SeasonId, r.TankId });
        release.HasOne<ReleaseBooking>().WithMany().HasForeignKey(r => r.BookingId);
        release.HasIndex(r => r.PermitId);
        release.Property(r => r.Version).IsConcurrencyToken();
    }
}

internal sealed class SealMapping : IEntityTypeConfiguration<SeasonSeal>
{
    public void Configure(EntityTypeBuilder<SeasonSeal> seal)
    {
        seal.HasOne<Season>().WithMany().HasForeignKey(s => s.SeasonId);
        // A season is sealed once at a time.
        seal.HasIndex(s => s.SeasonId).IsUnique().HasFilter("reopened_at IS NULL");
        seal.Property(s => s.Checksum).HasMaxLength(64);
        seal.Property(s => s.Version).IsConcurrencyToken();
    }
}

internal sealed class ReportColumnsMapping : IEntityTypeConfiguration<ReportColumns>
{
    public void Configure(EntityTypeBuilder<ReportColumns> columns)
    {
        columns.HasKey(c => c.ProgrammeId);
        columns.HasOne<Programme>().WithOne().HasForeignKey<ReportColumns>(c => c.ProgrammeId);
        columns.Property(c => c.Text).HasMaxLength(ReportColumns.Longest);
        columns.Property(c => c.Version).IsConcurrencyToken();
    }
}
