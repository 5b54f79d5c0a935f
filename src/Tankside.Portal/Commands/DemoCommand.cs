namespace Tankside.Portal.Commands;

/// <summary>Seeds the demo season into an empty database.</summary>
public static class DemoCommand
{
    public static Command? Parse(string[] words) => words.Length > 0 ? null : new Command(Demo.DemoSeason.SeedByCommandAsync);
}
