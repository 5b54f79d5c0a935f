namespace Tankside.Hatchery.Releases;

/// <summary>What a programme may set for itself about bringing fry to the stream's temperature: the key it is stored under and the value where it set none.</summary>
public static class TemperingSettings
{
    /// <summary>As far as bucket and stream may be apart, °C: 5 °F, as most permits ask (common practice, no source).</summary>
    public static readonly (string Key, double Default) Apart = ("tempering.apart", 2.78);

    /// <summary>The coldest that fry are kept at while they wait, °C: 40 °F (common practice, no source).</summary>
    public static readonly (string Key, double Default) Coldest = ("tempering.coldest", 4.44);

    /// <summary>The warmest, °C: 56 °F (common practice, no source).</summary>
    public static readonly (string Key, double Default) Warmest = ("tempering.warmest", 13.33);
}
