namespace Tankside.Portal.Flags.Cards;

/// <summary>How the lines of a part stand on the card.</summary>
public enum PartLook
{
    Points,

    /// <summary>Numbered: the order matters.</summary>
    Steps,

    /// <summary>Questions with a box for yes and one for no.</summary>
    Ticks,

    /// <summary>Questions with a line to write on.</summary>
    Blanks,
}

/// <summary>A heading and what stands under it.</summary>
public sealed record CardPart(string Heading, IReadOnlyList<string> Lines, PartLook Look = PartLook.Points);

/// <summary>What one card says in one language; the page shows it and the paper draws it.</summary>
/// <param name="Printed">From which day its numbers are.</param>
/// <param name="Answer">The one thing to know when nothing else is read.</param>
/// <param name="Call">Whom to call, a line a person; the first part's heading stands over it.</param>
/// <param name="AgencyWins">Whose word goes before the card's.</param>
public sealed record CardSheet(
    string Language, string Title, string Where, string Printed, string Answer, IReadOnlyList<CardPart> Parts, CardPart Call, string AgencyWins)
{
    /// <summary>How the reading is sent; null on a card that asks for none.</summary>
    public CardCode? Code { get; init; }

    /// <summary>Long cards stand in two columns.</summary>
    public int Columns { get; init; } = 1;
}

/// <summary>The place of the tank's code.</summary>
/// <param name="Address">Null for who must not have the code, and for a tank without one: the card then leaves room for the label.</param>
/// <param name="Said">What stands under it.</param>
public sealed record CardCode(Uri? Address, string Said, string TypedStart, string TypedCode);
