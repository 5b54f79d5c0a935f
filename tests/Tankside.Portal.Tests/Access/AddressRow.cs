namespace Tankside.Portal.Tests.Access;

/// <summary>Everybody who may knock, in the order of the table's columns.</summary>
public enum Caller
{
    Nobody,
    Teacher,
    Coordinator,
    KitHand,
    ProgrammeLead,
    AgencyContact,
    TeacherOfOtherSchool,
    LeadOfOtherProgramme,
    LoggerKey,
    CoordinatorKey,
    CoordinatorKeyOfOtherProgramme,

    /// <summary>Nobody, but with the code from a label: at the label's own address, as a key, and wherever a tank's code is asked.</summary>
    RoomCode,
}

/// <summary>One address and how it answers each caller.</summary>
/// <param name="Pattern">As the portal maps it.</param>
/// <param name="Address">With values of the made-up world in braces; see <see cref="Callers.Fill"/>.</param>
/// <param name="Cells">A letter for each <see cref="Caller"/>, see <see cref="AddressTable"/>; spaces only group them.</param>
/// <param name="Form">Name of the page's form that a POST sends.</param>
/// <param name="WithoutToken">The letters for a POST without an antiforgery token; null where none is needed.</param>
public sealed record AddressRow(string Method, string Pattern, string Address, string Cells, string? Form = null, string? WithoutToken = null)
{
    public char Expected(Caller caller) => Letter(Cells, caller);

    public char ExpectedWithoutToken(Caller caller) => Letter(WithoutToken!, caller);

    public override string ToString() => $"{Method} {Address}{(Form is null ? "" : $" ({Form})")}";

    private static char Letter(string cells, Caller caller) => cells.Replace(" ", "", StringComparison.Ordinal)[(int)caller];
}
