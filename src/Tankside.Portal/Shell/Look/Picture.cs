namespace Tankside.Portal.Shell.Look;

/// <summary>The small drawings that stand where people would rather look than read.</summary>
public enum Picture
{
    /// <summary>The product's mark: a tank with a water line over eggs.</summary>
    Brand,

    /// <summary>An egg whose eyes do not show yet.</summary>
    Egg,

    /// <summary>An egg in which two dark eyes show.</summary>
    EyedEgg,

    /// <summary>A newly hatched fish on its yolk bag, among the gravel.</summary>
    Alevin,

    /// <summary>A young fish that swims up and feeds.</summary>
    Fry,

    /// <summary>A young fish about finger long, with its dark side bars.</summary>
    Fingerling,

    /// <summary>The tick "is the water moving?".</summary>
    WaterMoving,

    /// <summary>The tick "are there bubbles?".</summary>
    Bubbles,

    /// <summary>The tick "is the water up to the line?".</summary>
    Level,

    /// <summary>The tick "is the water clear?".</summary>
    Clear,

    /// <summary>A filled diamond: act now.</summary>
    ActNow,

    /// <summary>A half-filled circle: today.</summary>
    Today,

    /// <summary>A ring: this week.</summary>
    ThisWeek,
}
