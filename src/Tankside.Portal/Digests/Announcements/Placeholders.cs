using Tankside.Portal.Shell;

namespace Tankside.Portal.Digests.Announcements;

/// <summary>A word in braces for which each reader's own value is put.</summary>
/// <param name="Means">What stands there, for whoever writes.</param>
/// <param name="MissingEn">What stands there for a reader without a value.</param>
/// <param name="MissingEs">The same in Spanish.</param>
public sealed record Placeholder(string Name, string Means, string MissingEn, string MissingEs)
{
    public string Typed => $"{{{Name}}}";

    public string Missing(string language) => language == "es" ? MissingEs : MissingEn;
}

/// <summary>The placeholders of announcements. They are the same words in both languages.</summary>
public static class Placeholders
{
    public static readonly Placeholder
        Name = new("name", "the reader’s name", "colleague", "colega"),
        School = new("school", "the reader’s school", "your school", "su escuela"),
        Tank = new("tank", "the codes of the school’s tanks", "your tank", "su tanque"),
        Stage = new("stage", "eggs, alevins or fry, tank by tank", "(stage not known yet)", "(etapa aún desconocida)"),
        Hatch = new("likely hatch date", "the days between which half will have hatched, or the day it was seen", "(no date yet)", "(aún sin fecha)"),
        Delivery = new("delivery day", "the next day on which eggs are to come", "(day not settled yet)", "(día aún sin decidir)"),
        Release = new("next release day", "the next settled release day of the school", "(day not settled yet)", "(día aún sin decidir)"),
        Coordinator = new("coordinator", "your own name", "your coordinator", "su coordinación"),
        Telephone = new("telephone", "your own telephone number", "(no number given)", "(sin número)");

    public static IReadOnlyList<Placeholder> All { get; } = [Name, School, Tank, Stage, Hatch, Delivery, Release, Coordinator, Telephone];

    private static readonly IReadOnlyList<string> Names = [.. All.Select(p => p.Name)];

    public static string Listed { get; } = string.Join(", ", All.Select(p => p.Typed));

    /// <summary>What is wrong with the placeholders of a text; null when nothing is.</summary>
    public static string? Check(string text) => Braces.Check(text, Names);

    /// <summary>The known placeholders in a text, each once.</summary>
    public static IReadOnlyList<Placeholder> In(string text) => [.. Braces.In(text).Select(Find).OfType<Placeholder>().Distinct()];

    public static string Fill(string text, Func<Placeholder, string?> value, string language) =>
        Braces.Fill(text, typed => Find(typed) is { } known ? value(known) ?? known.Missing(language) : null);

    private static Placeholder? Find(string typed) => All.FirstOrDefault(p => p.Name.Equals(typed, StringComparison.OrdinalIgnoreCase));
}
