using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Tankside.Hatchery.Kit;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Storage.People;

namespace Tankside.Storage.Kit;

internal sealed class KitItemMapping : IEntityTypeConfiguration<KitItem>
{
    /// <summary>
    /// The database itself knows that a serial is in one place at most, and in none while it is in repair or retired.
    /// </summary>
    private const string OnePlace =
        "(in_tank_id IS NULL OR depot_id IS NULL) AND (in_tank_id IS NULL OR with_person_id IS NULL) AND (depot_id IS NULL OR with_person_id IS NULL) "
        + "AND (condition NOT IN ('InRepair', 'Retired') OR (in_tank_id IS NULL AND depot_id IS NULL AND with_person_id IS NULL))";

    public void Configure(EntityTypeBuilder<KitItem> item)
    {
        item.ToTable("KitItems", table => table.HasCheckConstraint("ck_kit_items_one_place", OnePlace));
        item.HasOne<Programme>().WithMany().HasForeignKey(k => k.ProgrammeId);
        item.HasOne<Tank>().WithMany().HasForeignKey(k => k.InTankId);
        item.HasOne<Tank>().WithMany().HasForeignKey(k => k.ReservedForTankId);
        item.HasOne<KitDepot>().WithMany().HasForeignKey(k => k.DepotId);
        item.HasOne<Person>().WithMany().HasForeignKey(k => k.WithPersonId);
        item.HasIndex(k => new { k.ProgrammeId, k.Serial }).IsUnique();
        item.Ignore(k => k.IsSpare);
        item.Ignore(k => k.Spot);
        item.Property(k => k.Version).IsConcurrencyToken();
    }
}

internal sealed class KitActMapping : IEntityTypeConfiguration<KitAct>
{
    public void Configure(EntityTypeBuilder<KitAct> act)
    {
        act.ToTable("KitActs");

        // The number is part of the key: two acts cannot both follow the same one.
        act.HasKey(a => new { a.ItemId, a.Number });
        act.HasIndex(a => new { a.ItemId, a.SenderId }).IsUnique();
        act.HasOne<KitItem>().WithMany().HasForeignKey(a => a.ItemId);
        act.Ignore(a => a.FromSpot);
        act.Ignore(a => a.ToSpot);
        act.Ignore(a => a.IsFailure);
    }
}

internal sealed class KitDepotMapping : IEntityTypeConfiguration<KitDepot>
{
    public void Configure(EntityTypeBuilder<KitDepot> depot)
    {
        depot.ToTable("KitDepots");
        depot.HasOne<Programme>().WithMany().HasForeignKey(d => d.ProgrammeId);
        depot.HasOne<School>().WithMany().HasForeignKey(d => d.SchoolId);
        depot.HasOne<Person>().WithMany().HasForeignKey(d => d.HolderId);
        depot.Property(d => d.Version).IsConcurrencyToken();
    }
}

internal sealed class KitPhotoMapping : IEntityTypeConfiguration<KitPhoto>
{
    public void Configure(EntityTypeBuilder<KitPhoto> photo)
    {
        photo.ToTable("KitPhotos");
        photo.HasOne<KitItem>().WithMany().HasForeignKey(p => p.ItemId);
        photo.HasIndex(p => new { p.ItemId, p.ReceivedAt });
    }
}

internal sealed class ConsumableMapping : IEntityTypeConfiguration<Consumable>
{
    public void Configure(EntityTypeBuilder<Consumable> consumable)
    {
        consumable.ToTable("Consumables");
        consumable.HasOne<Programme>().WithMany().HasForeignKey(c => c.ProgrammeId);
        consumable.HasIndex(c => new { c.ProgrammeId, c.Name }).IsUnique();
        consumable.Ignore(c => c.IsLow);
        consumable.Ignore(c => c.ToOrder);
        consumable.Property(c => c.Version).IsConcurrencyToken();
    }
}

internal sealed class ConsumableMoveMapping : IEntityTypeConfiguration<ConsumableMove>
{
    public void Configure(EntityTypeBuilder<ConsumableMove> move)
    {
        move.ToTable("ConsumableMoves");
        move.HasKey(m => new { m.ConsumableId, m.SenderId });
        move.HasOne<Consumable>().WithMany().HasForeignKey(m => m.ConsumableId);
    }
}
