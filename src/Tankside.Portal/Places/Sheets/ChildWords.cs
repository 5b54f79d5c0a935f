using Tankside.Portal.Shell.Sheets;

namespace Tankside.Portal.Places.Sheets;

/// <summary>
/// Headings under which schools keep children's names, ages and grades, and those of telephone numbers. A sheet with the former is not taken;
/// the cells under the latter are dropped before anything is kept.
/// </summary>
public static class ChildWords
{
    public const string Never = "Children’s data are never collected here.";

    private static readonly string[] Anywhere =
    [
        "pupil*", "student*", "child*", "kid", "kids", "learner*", "birth*", "birthday", "dob", "alumn*", "estudiante*", "nino*", "nina*", "nacimiento", "grade level", "school year of",
    ];

    private static readonly HashSet<string> Alone = ["age", "ages", "age years", "grade", "grades", "gender", "sex", "edad", "edades", "grado", "grados"];

    private static readonly string[] Telephones = ["phone*", "telephone*", "tel", "mobile*", "cell", "cellphone*", "telefono*", "celular*"];

    public static bool IsOfChildren(string heading)
    {
        var words = Headings.Plain(heading);
        return Alone.Contains(words) || Anywhere.Any(w => Headings.Has(words, w));
    }

    public static bool IsOfTelephones(string heading)
    {
        var words = Headings.Plain(heading);
        return Telephones.Any(w => Headings.Has(words, w));
    }
}
