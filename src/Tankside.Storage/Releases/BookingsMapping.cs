using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Releases;
using Tankside.Hatchery.Releases.Bookings;
using Tankside.Hatchery.Seasons;

namespace Tankside.Storage.Releases;

internal sealed class BookingMapping : IEntityTypeConfiguration<ReleaseBooking>
{
    public void Configure(EntityTypeBuilder<ReleaseBooking> booking)
    {
        booking.HasOne<Season>().WithMany().HasForeignKey(b => b.SeasonId);
        booking.HasOne<School>().WithMany().HasForeignKey(b => b.SchoolId);
        booking.HasOne<ReleaseSite>().WithMany().HasForeignKey(b => b.SiteId);
        booking.HasOne<Permit>().WithMany().HasForeignKey(b => b.PermitId);
        booking.PrimitiveCollection(b => b.TankIds).HasMaxLength(8000);
        booking.PrimitiveCollection(b => b.Ticked).HasMaxLength(2000);
        booking.Ignore(b => b.Slot);
        booking.Property(b => b.Version).IsConcurrencyToken();
    }
}

internal sealed class BookingChoiceMapping : IEntityTypeConfiguration<BookingChoice>
{
    public void Configure(EntityTypeBuilder<BookingChoice> choice)
    {
        choice.HasKey(c => new { c.BookingId, c.Rank });
        choice.HasOne<ReleaseBooking>().WithMany().HasForeignKey(c => c.BookingId);
        choice.HasOne<ReleaseSite>().WithMany().HasForeignKey(c => c.SiteId);
        choice.Ignore(c => c.Slot);
    }
}

internal sealed class BookingHoldMapping : IEntityTypeConfiguration<BookingHold>
{
    public void Configure(EntityTypeBuilder<BookingHold> hold)
    {
        hold.HasOne<ReleaseBooking>().WithMany().HasForeignKey(h => h.BookingId);
        // Nobody is in two places at once, whoever settles at the same moment.
        hold.HasIndex(h => new { h.On, h.Part, h.Kind, h.HeldId }).IsUnique();
        hold.HasIndex(h => h.BookingId);
    }
}

internal sealed class BookingActMapping : IEntityTypeConfiguration<BookingAct>
{
    public void Configure(EntityTypeBuilder<BookingAct> act)
    {
        act.HasOne<ReleaseBooking>().WithMany().HasForeignKey(a => a.BookingId);
        act.HasIndex(a => a.BookingId);
    }
}

internal sealed class TallyMapping : IEntityTypeConfiguration<TallyCount>
{
    public void Configure(EntityTypeBuilder<TallyCount> count)
    {
        count.HasOne<ReleaseBooking>().WithMany().HasForeignKey(c => c.BookingId);
        count.HasOne<Tank>().WithMany().HasForeignKey(c => c.TankId);
        count.HasIndex(c => new { c.BookingId, c.TankId, c.Turn, c.Seat }).IsUnique();
        count.Property(c => c.Version).IsConcurrencyToken();
    }
}
