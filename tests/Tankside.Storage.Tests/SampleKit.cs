using Tankside.Hatchery.Kit;
using Tankside.Hatchery.People;
using Tankside.Testing;

namespace Tankside.Storage.Tests;

/// <summary>Rows of the kit: depots, pieces in every place, acts, photos, consumables.</summary>
internal static class SampleKit
{
    private static readonly DateTime At = SampleRows.At;

    public static IReadOnlyList<object> Of(TestProgramme p)
    {
        var hand = p.People[Role.KitHand].Id;
        var depot = new KitDepot
        {
            Id = Guid.NewGuid(),
            ProgrammeId = p.Programme.Id,
            Name = "Birch Lane, stock room",
            SchoolId = p.Schools[0].Id,
            HolderId = hand,
            Holder = "Office",
            Phone = "555-0139",
            Hours = "school days 8 to 15",
            Latitude = 45.5,
            Longitude = -122.25,
            ClosedAt = At.AddDays(9),
        };
        var spare = New(p, "CH-0117", KitCondition.Working);
        (spare.DepotId, spare.ReservedForTankId, spare.ReservedBy, spare.ReservedAt) = (depot.Id, p.Tanks[0].Id, hand, At);
        (spare.ToClean, spare.Acts, spare.MostLitres) = (true, 1, 210);
        var carried = New(p, "CH-0118", KitCondition.Faulty);
        carried.WithPersonId = hand;
        var lent = New(p, "CH-0119", KitCondition.Working);
        lent.InTankId = p.Tanks[1].Id;
        var neutraliser = new Consumable
        {
            Id = Guid.NewGuid(),
            ProgrammeId = p.Programme.Id,
            Name = "Neutraliser",
            Unit = "bottle of 250 ml",
            InStock = 3,
            ReorderAt = 4,
            ReorderQuantity = 12,
            Supplier = "any shop",
            OrderedAt = At,
        };
        return
        [
            depot, spare, carried, lent, New(p, "CH-0120", KitCondition.InRepair), neutraliser,
            new KitAct
            {
                ItemId = spare.Id, Number = 1, SenderId = Guid.NewGuid(), Kind = KitActKind.Swapped, At = At, By = hand, FromPlace = KitPlace.Tank, FromId = p.Tanks[0].Id,
                ToPlace = KitPlace.Depot, ToId = depot.Id, Before = KitCondition.Working, After = KitCondition.Faulty, Note = "hums, “does not start”",
            },
            new KitPhoto
            {
                Id = Guid.NewGuid(), ItemId = spare.Id, ReceivedAt = At, SentBy = hand, Note = "the plate", Width = 1600, Height = 1200,
                Content = [0xFF, 0xD8, 0xFF, 0xD9], RemovedAt = At.AddDays(1), RemovedBy = hand,
            },
            new ConsumableMove { ConsumableId = neutraliser.Id, SenderId = Guid.NewGuid(), Change = -2, InStockAfter = 3, At = At, By = hand, Note = "Room 2" },
        ];
    }

    public static KitItem New(TestProgramme p, string serial, KitCondition condition) => new()
    {
        Id = Guid.NewGuid(),
        ProgrammeId = p.Programme.Id,
        Kind = KitKind.Chiller,
        Serial = serial,
        Make = "quarter horse, drop-in",
        Batch = "2019-B",
        Owner = "the club",
        BoughtOn = new DateOnly(2025, 9, 1),
        WarrantyUntil = new DateOnly(2027, 9, 1),
        Condition = condition,
    };
}
