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
        var name = Option(args, "--target");
        var targets = Parsers.All.Where(t => name is null || t.Name == name).ToList();
        if (targets.Count == 0)
        {
            Console.Error.WriteLine($"There is no parser {name}. They are {string.Join(", ", Parsers.All)}.");
            return 2;
        }

        if (Option(args, "--file") is { } file && targets is [var only])
        {
            var found = Trial.Of(only, File.ReadAllBytes(file), out var answer);
            Console.WriteLine(found?.What ?? answer);
            return found is null ? 0 : 1;
        }

        if (!TimeSpan.TryParseExact(Option(args, "--for"), @"hh\:mm\:ss", CultureInfo.InvariantCulture, out var time))
        {
            Console.Error.WriteLine(Usage);
            return 2;
        }

        return LongRun.Run(time, targets, Option(args, "--into") ?? "findings");
    }

    private static string? Option(string[] args, string name) => Array.IndexOf(args, name) is >= 0 and var at && at + 1 < args.Length ? args[at + 1] : null;
}
