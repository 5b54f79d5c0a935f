using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Tankside.Hatchery.Digests;
using Tankside.Hatchery.People;
using Tankside.Storage.People;

namespace Tankside.Storage.Digests;

internal sealed class AnnouncementMapping : IEntityTypeConfiguration<Announcement>
{
    public void Configure(EntityTypeBuilder<Announcement> announcement)
    {
        announcement.HasOne<Programme>().WithMany().HasForeignKey(a => a.ProgrammeId);
        announcement.HasIndex(a => new { a.ProgrammeId, a.WrittenAt });
        announcement.Property(a => a.For).HasMaxLength(2000);
        announcement.Property(a => a.TextEn).HasMaxLength(Announcement.LongestText);
        announcement.Property(a => a.TextEs).HasMaxLength(Announcement.LongestText);
        announcement.Property(a => a.Version).IsConcurrencyToken();
    }
}

internal sealed class AnnouncementReaderMapping : IEntityTypeConfiguration<AnnouncementReader>
{
    public void Configure(EntityTypeBuilder<AnnouncementReader> reader)
    {
        reader.HasKey(r => new { r.AnnouncementId, r.PersonId });
        reader.HasOne<Announcement>().WithMany().HasForeignKey(r => r.AnnouncementId);
        reader.HasOne<Person>().WithMany().HasForeignKey(r => r.PersonId);
    }
}

internal sealed class OwnTemplateMapping : IEntityTypeConfiguration<OwnTemplate>
{
    public void Configure(EntityTypeBuilder<OwnTemplate> template)
    {
        template.HasOne<Programme>().WithMany().HasForeignKey(t => t.ProgrammeId);
        template.HasIndex(t => new { t.ProgrammeId, t.Name }).IsUnique();
        template.HasIndex(t => new { t.ProgrammeId, t.Shipped }).IsUnique();
        template.Property(t => t.TextEn).HasMaxLength(Announcement.LongestText);
        template.Property(t => t.TextEs).HasMaxLength(Announcement.LongestText);
        template.Property(t => t.Version).IsConcurrencyToken();
    }
}
