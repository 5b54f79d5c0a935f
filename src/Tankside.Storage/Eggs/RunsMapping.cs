using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Tankside.Hatchery.Eggs;
using Tankside.Hatchery.Eggs.Runs;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Places;
using Tankside.Hatchery.Seasons;

namespace Tankside.Storage.Eggs;

internal sealed class DeliveryRunMapping : IEntityTypeConfiguration<DeliveryRun>
{
    public void Configure(EntityTypeBuilder<DeliveryRun> run)
    {
        run.HasOne<Programme>().WithMany().HasForeignKey(r => r.ProgrammeId);
        run.HasOne<Season>().WithMany().HasForeignKey(r => r.SeasonId);
        run.HasIndex(r => new { r.SeasonId, r.Name }).IsUnique();
        run.Property(r => r.Version).IsConcurrencyToken();
    }
}

internal sealed class RunPlaceMapping : IEntityTypeConfiguration<RunPlace>
{
    public void Configure(EntityTypeBuilder<RunPlace> place) => place.HasOne<DeliveryRun>().WithMany().HasForeignKey(p => p.RunId);
}

internal sealed class RunDriverMapping : IEntityTypeConfiguration<RunDriver>
{
    public void Configure(EntityTypeBuilder<RunDriver> driver)
    {
        driver.HasOne<DeliveryRun>().WithMany().HasForeignKey(d => d.RunId);
        driver.HasOne<RunPlace>().WithMany().HasForeignKey(d => d.DepotId);
        driver.HasIndex(d => new { d.RunId, d.Number }).IsUnique();
        driver.HasIndex(d => d.Code).IsUnique();
        driver.Property(d => d.Version).IsConcurrencyToken();
    }
}

internal sealed class RunStopMapping : IEntityTypeConfiguration<RunStop>
{
    public void Configure(EntityTypeBuilder<RunStop> stop)
    {
        stop.HasOne<DeliveryRun>().WithMany().HasForeignKey(s => s.RunId);
        stop.HasOne<Tank>().WithMany().HasForeignKey(s => s.TankId);
        stop.HasOne<EggLot>().WithMany().HasForeignKey(s => s.LotId);
        stop.HasIndex(s => new { s.RunId, s.TankId }).IsUnique();
        stop.Property(s => s.Version).IsConcurrencyToken();
    }
}

internal sealed class RunTickMapping : IEntityTypeConfiguration<RunTick>
{
    public void Configure(EntityTypeBuilder<RunTick> tick)
    {
        tick.HasOne<DeliveryRun>().WithMany().HasForeignKey(t => t.RunId);
        tick.HasOne<RunStop>().WithMany().HasForeignKey(t => t.StopId);
    }
}
