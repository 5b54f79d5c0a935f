namespace Tankside.Hatchery.Kit;

/// <summary>What is used up: neutraliser, test reagents, air stones. Counted in whole packs, bottles or pieces.</summary>
public sealed class Consumable
{
    public Guid Id { get; init; }

    public Guid ProgrammeId { get; init; }

    public required string Name { get; set; }

    /// <summary>What is counted: "bottle of 250 ml".</summary>
    public required string Unit { get; set; }

    public int InStock { get; set; }

    /// <summary>At so many or fewer it is ordered again.</summary>
    public int ReorderAt { get; set; }

    /// <summary>How many are then ordered.</summary>
    public int ReorderQuantity { get; set; }

    public string? Supplier { get; set; }

    /// <summary>Ordered and not come yet.</summary>
    public DateTime? OrderedAt { get; set; }

    public int Version { get; set; }

    public bool IsLow => InStock <= ReorderAt;

    public bool ToOrder => IsLow && OrderedAt is null;
}

/// <summary>What came in, went out or was counted of a consumable; lines are only added.</summary>
public sealed class ConsumableMove
{
    public Guid ConsumableId { get; init; }

    /// <summary>From the sender, so that the form sent twice counts once.</summary>
    public Guid SenderId { get; init; }

    /// <summary>More when positive, less when negative.</summary>
    public int Change { get; init; }

    /// <summary>What was there afterwards.</summary>
    public int InStockAfter { get; init; }

    public DateTime At { get; init; }

    public Guid By { get; init; }

    public string? Note { get; init; }
}
