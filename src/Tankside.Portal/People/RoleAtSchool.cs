using Tankside.Hatchery.People;
using Tankside.Portal.Accounts;
using Tankside.Portal.Shell;

namespace Tankside.Portal.People;

/// <summary>A role and the school that goes with it, as a lead chose them.</summary>
public sealed record RoleAtSchool(Role Role, Guid? SchoolId)
{
    /// <summary>A teacher belongs to one school of the programme, everybody else to none. Null when it fits, else what does not.</summary>
    /// <param name="schools">The programme's own schools.</param>
    public string? Misfit(IReadOnlyList<SchoolChoice> schools) =>
        Role == Role.Teacher
            ? SchoolId is null ? "Choose the teacher's school."
                : schools.Any(s => s.Id == SchoolId) ? null
                : "This school is not in your programme. Choose one from the list."
            : SchoolId is null ? null
            : "Only a teacher belongs to one school. For this role, choose \"No school\".";

    /// <summary>In words, e.g. "teacher at Cedar Bend".</summary>
    public static string Words(Role role, Guid? schoolId, IReadOnlyList<SchoolChoice> schools, Say? said = null) => (said ?? Say.InEnglish) is var say
        && NameOf(schoolId, schools) is { } school ? say.Of("{0} at {1}|role at school", say[role.Word()], school) : say[role.Word()];

    public static string? NameOf(Guid? schoolId, IReadOnlyList<SchoolChoice> schools) => schools.FirstOrDefault(s => s.Id == schoolId)?.Name;
}
