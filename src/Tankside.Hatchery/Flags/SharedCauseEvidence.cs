using System.Text.Json.Serialization;
using Tankside.Hatchery.Eggs;

namespace Tankside.Hatchery.Flags;

/// <summary>A tank in a shared trouble.</summary>
/// <param name="Kind">Its own trouble; null where only its deaths speak.</param>
/// <param name="Dead">Counted dead in the last two weeks.</param>
/// <param name="Expected">Usual over the same days.</param>
/// <param name="Fish">Alive, about.</param>
public sealed record SharedTank(string Code, FlagKind? Kind, int Dead, double Expected, int Fish);

/// <summary>Something else that the same tanks share.</summary>
public sealed record SharedWith(SharedBy By, string Code);

/// <summary>Trouble crowded into the tanks that share something.</summary>
/// <param name="Tanks">Those in trouble, by code.</param>
/// <param name="Others">Codes of the group's tanks that are not, or not yet.</param>
/// <param name="OtherFish">Fish in those.</param>
/// <param name="Since">When the first of the troubles began.</param>
/// <param name="Tail">Chance of so many so bad if nothing were shared.</param>
/// <param name="Fisher">Chance that as many of the programme's troubles fall into the group blindly; 1 where all tanks share it.</param>
/// <param name="Also">What would explain the same tanks.</param>
public sealed record SharedCauseEvidence(
    LifeStage Stage,
    SharedBy By,
    string Code,
    IReadOnlyList<SharedTank> Tanks,
    IReadOnlyList<string> Others,
    int OtherFish,
    DateTime Since,
    double Tail,
    double Fisher,
    IReadOnlyList<SharedWith> Also) : Evidence(Stage)
{
    /// <summary>Tanks of the group, in trouble or not.</summary>
    [JsonIgnore]
    public int Of => Tanks.Count + Others.Count;

    /// <summary>Alive in the tanks in trouble.</summary>
    [JsonIgnore]
    public int Fish => Tanks.Sum(t => t.Fish);

    [JsonIgnore]
    public int Dead => Tanks.Sum(t => t.Dead);

    [JsonIgnore]
    public double Expected => Tanks.Sum(t => t.Expected);

    /// <summary>By value, lists too: the same evidence read again is no news.</summary>
    public bool Equals(SharedCauseEvidence? other) =>
        other is not null
        && (Stage, By, Code, OtherFish, Since, Tail, Fisher).Equals(
            (other.Stage, other.By, other.Code, other.OtherFish, other.Since, other.Tail, other.Fisher))
        && Tanks.SequenceEqual(other.Tanks) && Others.SequenceEqual(other.Others) && Also.SequenceEqual(other.Also);

    public override int GetHashCode() => HashCode.Combine(Stage, By, Code, Tanks.Count, Others.Count, OtherFish, Since, Tail);
}
