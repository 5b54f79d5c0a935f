using System.Text.RegularExpressions;

namespace Tankside.Portal.Tests.Guards;

/// <summary>
/// Who may mention whom. This table is the architecture's diagram: the nine words stand in the order of the flow, and a word may mention
/// those to its left, never to its right, in whichever room.
/// </summary>
public sealed partial class WordOrder
{
    private const string Hatchery = "Hatchery", Storage = "Storage", Portal = "Portal";

    private static readonly string[] Words = ["People", "Seasons", "Places", "Kit", "Eggs", "Readings", "Releases", "Flags", "Digests"];

    /// <summary>The portal's folders that are not words, and what each may mention beside itself.</summary>
    private static readonly Dictionary<string, string[]> OtherFolders = new()
    {
        ["Shell"] = [],
        ["Accounts"] = ["Shell", "People"],
        ["Bench"] = ["Shell"],
        ["Demo"] = ["Shell", "Accounts", "Bench", .. Words],
        ["Commands"] = ["Shell", "Accounts", "Bench", "Demo", .. Words],
    };

    /// <summary>The portal's folders that every word may mention.</summary>
    private static readonly string[] UnderAllWords = ["Shell", "Accounts"];

    /// <summary>Single files that put the others together.</summary>
    private static readonly Dictionary<string, string[]> Composers = new()
    {
        ["src/Tankside.Portal/Program.cs"] = ["Shell", "Accounts", "Bench", "Demo", "Commands", .. Words],
        ["src/Tankside.Portal/_Imports.razor"] = ["Shell"],
        ["src/Tankside.Portal/Shell/Start.cs"] = ["Shell", "Commands"],
        ["src/Tankside.Storage/HatcheryDb.cs"] = Words,
        ["src/Tankside.Storage/Audited.cs"] = Words,
    };

    private readonly IReadOnlyList<SourceFile> files;
    private readonly ILookup<string, string> typesOfWord;
    private readonly Dictionary<string, string> wordOfTable;

    public WordOrder(IReadOnlyList<SourceFile> files)
    {
        this.files = files;
        typesOfWord = files.Where(f => RoomOf(f) is not null && FolderOf(f) is { } folder && Words.Contains(folder))
            .SelectMany(f => TypeName().Matches(f.Text).Select(m => (Word: FolderOf(f)!, Type: m.Groups[1].Value)))
            .Distinct().ToLookup(t => t.Word, t => t.Type);
        wordOfTable = files.Where(f => f.Name == "HatcheryDb.cs")
            .SelectMany(f => Table().Matches(f.Text))
            .Select(m => (Table: m.Groups[2].Value, Word: Words.FirstOrDefault(w => typesOfWord[w].Contains(m.Groups[1].Value))))
            .Where(t => t.Word is not null)
            .ToDictionary(t => t.Table, t => t.Word!);
    }

    /// <summary>Every mention that the table does not allow, as "file: what".</summary>
    public IEnumerable<string> Violations() => files.Where(f => RoomOf(f) is not null).SelectMany(ViolationsOf);

    private IEnumerable<string> ViolationsOf(SourceFile file)
    {
        var folder = FolderOf(file);
        if (folder is not null && !Words.Contains(folder) && !(RoomOf(file) == Portal && OtherFolders.ContainsKey(folder)))
        {
            return [$"{file.Path}: the folder {folder} has no place in the order"];
        }

        var allowed = AllowedFor(file, folder);
        var violations = Mentions(file).Where(m => !allowed.Contains(m)).Distinct().Select(m => $"{file.Path}: mentions {m}").ToList();
        if (file.Text.Contains("global using", StringComparison.Ordinal))
        {
            violations.Add($"{file.Path}: a global using hides who mentions whom");
        }

        if (folder == "Bench" && InnerRoom().IsMatch(file.Text))
        {
            violations.Add($"{file.Path}: the bench stands on Science alone");
        }

        return violations;
    }

    private static HashSet<string> AllowedFor(SourceFile file, string? folder) =>
        Composers.TryGetValue(file.Path, out var composer) ? [.. composer]
        : folder is null ? []
        : OtherFolders.TryGetValue(folder, out var others) ? [folder, .. others]
        : [.. Words[..(Array.IndexOf(Words, folder) + 1)], .. UnderAllWords];

    /// <summary>Folders named by namespace, by a type behind a half-qualified name, or by a table of the database.</summary>
    private IEnumerable<string> Mentions(SourceFile file)
    {
        var spaces = Namespace().Matches(file.Text)
            .Where(m => !m.Groups["own"].Success)
            .Select(m => m.Groups["folder"].Value)
            .Where(f => Words.Contains(f) || OtherFolders.ContainsKey(f));
        var types = HalfQualified().Matches(file.Text)
            .Where(m => typesOfWord[m.Groups[1].Value].Contains(m.Groups[2].Value))
            .Select(m => m.Groups[1].Value);
        var tables = TableUse().Matches(file.Text)
            .Select(m => wordOfTable.GetValueOrDefault(m.Groups[1].Value))
            .OfType<string>();
        return spaces.Concat(types).Concat(tables);
    }

    private static string? RoomOf(SourceFile file) => file.Parts is ["src", var project, ..]
        ? new[] { Hatchery, Storage, Portal }.FirstOrDefault(r => project == "Tankside." + r)
        : null;

    private static string? FolderOf(SourceFile file) => file.Parts is ["src", _, var folder, _, ..] ? folder : null;

    [GeneratedRegex(@"\b(?:class|record(?:\s+struct)?|struct|enum|interface)\s+(\w+)")]
    private static partial Regex TypeName();

    [GeneratedRegex(@"DbSet<(\w+)>\s+(\w+)")]
    private static partial Regex Table();

    [GeneratedRegex(@"\bdb\.(\w+)")]
    private static partial Regex TableUse();

    [GeneratedRegex(@"(?<own>namespace\s+)?(?<![\w.])(?:Tankside\.)?(?:Hatchery|Storage|Portal)\.(?<folder>\w+)")]
    private static partial Regex Namespace();

    [GeneratedRegex(@"(?<![\w.])(\w+)\.(\w+)")]
    private static partial Regex HalfQualified();

    [GeneratedRegex(@"(?<![\w.])(?:Tankside\.)?(?:Hatchery|Storage)\b(?=[.;])")]
    private static partial Regex InnerRoom();
}
