namespace Tankside.Hatchery.Flags;

/// <summary>The amounts that first aid names.</summary>
public static partial class Limits
{
    public static readonly Setting AidCooling = new("aid.cooling", 1.1, "°C an hour at most, in a rescue", "2 °F an hour: " + Practice);
    public static readonly Setting AidWarming = new("aid.warming", 0.6, "°C a day at most, otherwise", "1 °F a day: " + Practice);
    public static readonly Setting AidMatch = new("aid.match", 1.1, "°C between box and tank when eggs go in", "2 °F: " + Practice);
    public static readonly Setting AidThaw = new("aid.thaw", 2, "hours unplugged until the coil is free", Practice);
    public static readonly Setting AidAcidPh = new("aid.acid-ph", 6.6, "pH under which only small water changes are advised", Practice);
    public static readonly Setting AidChange = new("aid.change", 0.2, "share of the water changed at once", Practice);
    public static readonly Setting AidChangeAcid = new("aid.change-acid", 0.1, "share of the water changed at once in an acid tank", Practice);
    public static readonly Setting AidTapChlorine = new("aid.tap-chlorine", 3, "mg/L, the most reckoned with in tap water", Practice);
    public static readonly Setting AidSmallTank = new("aid.small-tank", 80, "L under which half-litre bottles cool", Judgement);
}
