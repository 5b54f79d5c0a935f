using Tankside.Portal.Commands;

namespace Tankside.Fuzz.Tests.Targets;

/// <summary>The words after the program's name.</summary>
public static class CommandWords
{
    private static readonly string[] Words =
    [
        "migrate", "demo", "simulate", "--tanks", "--days", "--seed", "--logger-minutes", "12", "key", "new", "--role", "logger", "all", "A001,A002", "--name", "export", "totals", "--season", "--mapping", "--out", "x.csv", "x", "judge", "rebuild",
        "backup", "--into", "--keep", "restore", "--from", "--replace", "--try", "bounces", "-", "doctor", "set-up", "second-step", "off", "--email", "replay", "--case", "", "--programme", "-1", "0", "99999999999",
    ];

    public static Target Target { get; } = new("command-words", dice => Texts.Bytes(string.Join('\n', Enumerable.Range(0, dice.Below(8)).Select(_ => dice.OneIn(10) ? dice.Of(Mutations.Odd) : dice.Of(Words)))), Read) { Words = [.. Words, "\n"] };

    private static string Read(byte[] bytes)
    {
        string[] words = Texts.Read(bytes).Split('\n');
        return $"{CommandLine.Parse(words) is not null}"; // Only read here, not run.
    }
}
