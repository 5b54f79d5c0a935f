using Tankside.Hatchery.People;

namespace Tankside.Portal.Accounts;

/// <summary>Roles as people say them.</summary>
public static class RoleWords
{
    public static string Word(this Role role) => role switch
    {
        Role.Teacher => "teacher",
        Role.Coordinator => "coordinator",
        Role.KitHand => "kit hand",
        Role.ProgrammeLead => "programme lead",
        Role.AgencyContact => "agency contact",
    };

    /// <summary>For a choice: the role and what it is for.</summary>
    public static string Choice(this Role role) => role switch
    {
        Role.Teacher => "Teacher: the tanks of one school",
        Role.Coordinator => "Coordinator: the round, all tanks",
        Role.KitHand => "Kit hand: fetches and repairs",
        Role.ProgrammeLead => "Programme lead: everything",
        Role.AgencyContact => "Agency contact: reads the totals",
    };
}
