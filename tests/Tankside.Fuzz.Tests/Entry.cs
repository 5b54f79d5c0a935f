using System.Globalization;

namespace Tankside.Fuzz.Tests;

/// <summary>The command of the long run.</summary>
public static class Entry
{
    private const string Usage =
        """
        dotnet run -c Release --project tests/Tankside.Fuzz.Tests -- --for HH:MM:SS [--target NAME] [--into FOLDER]
        dotnet run -c Release --project tests/Tankside.Fuzz.Tests -- --file FILE --target NAME
        """;

    public static int Main(string[] args)
    {
        var (name, into, kept) = (Option(args, "--target"), Path.GetFullPath(Option(args, "--into") ?? "findings"), Option(args, "--file"));
        var targets = Parsers.All.Where(t => name is null || t.Name == name).ToList();
        if (targets.Count == 0)
        {
            Console.Error.WriteLine($"There is no parser {name}. They are {string.Join(", ", Parsers.All)}.");
            return 2;
        }

        var input = kept is null ? null : File.ReadAllBytes(kept);
        Directory.SetCurrentDirectory(AppContext.BaseDirectory); // The portal's host looks here for where its pages lie.
        if (input is not null && targets is [var only])
        {
            var found = Trial.Of(only, input, out var answer);
            Console.WriteLine(found?.What ?? answer);
            return found is null ? 0 : 1;
        }

        if (!TimeSpan.TryParseExact(Option(args, "--for"), @"hh\:mm\:ss", CultureInfo.InvariantCulture, out var time))
        {
            Console.Error.WriteLine(Usage);
            return 2;
        }

        return LongRun.Run(time, targets, into);
    }

    private static string? Option(string[] args, string name) => Array.IndexOf(args, name) is >= 0 and var at && at + 1 < args.Length ? args[at + 1] : null;
}
