namespace Tankside.Portal.Tests.Guards;

/// <summary>A source file: where it lies in the tree, with forward slashes, and what stands in it.</summary>
public sealed record SourceFile(string Path, string Text)
{
    public string[] Parts { get; } = Path.Split('/');

    public string Name => Parts[^1];
}

/// <summary>The project's own sources, as they lie in the tree that the tests were built from.</summary>
public static class SourceTree
{
    public static readonly string Root = FindRoot();

    private static readonly string[] Skipped = ["bin", "obj", "node_modules", "data", "TestResults"];

    /// <summary>Files below a folder whose names end in one of the endings; generated migrations only when asked for.</summary>
    public static IReadOnlyList<SourceFile> Files(string below, params string[] endings) =>
        [.. Walk(new DirectoryInfo(Path.Combine(Root, below)))
            .Where(f => endings.Any(e => f.Name.EndsWith(e, StringComparison.Ordinal)))
            .Select(f => new SourceFile(Path.GetRelativePath(Root, f.FullName).Replace('\\', '/'), File.ReadAllText(f.FullName)))
            .Where(f => !f.Parts.Contains("Migrations"))];

    /// <summary>Everything written by hand in C# or Razor.</summary>
    public static IReadOnlyList<SourceFile> Code { get; } = [.. Files("src", ".cs", ".razor"), .. Files("tests", ".cs", ".razor")];

    /// <summary>Fails with the whole list, one finding a line.</summary>
    public static void AssertNone(IEnumerable<string> findings)
    {
        var found = findings.ToList();
        Assert.True(found.Count == 0, string.Join('\n', found));
    }

    private static IEnumerable<FileInfo> Walk(DirectoryInfo folder) => folder.EnumerateFiles()
        .Concat(folder.EnumerateDirectories().Where(d => !Skipped.Contains(d.Name)).SelectMany(Walk));

    private static string FindRoot()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "Program.sln")))
            {
                return folder.FullName;
            }
        }

        throw new InvalidOperationException($"No Program.sln above {AppContext.BaseDirectory}: the guards read the source tree.");
    }
}
