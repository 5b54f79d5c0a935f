using System.Text.Json;

namespace Tankside.Process.Tests;

/// <summary>What <c>replay</c> answered, as a reader of the file format meets it.</summary>
public sealed record Replayed(IReadOnlyList<Replayed.Round> Rounds)
{
    private static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web) { RespectRequiredConstructorParameters = true };

    /// <summary>The morning round at one asked moment.</summary>
    public sealed record Round(string At, IReadOnlyList<Raised> Flags)
    {
        public IEnumerable<Raised> Of(string tank) => Flags.Where(f => f.Tank == tank);

        public IEnumerable<Raised> Shared => Flags.Where(f => f.Kind == "shared-cause");

        public IEnumerable<string> Kinds(string tank) => Of(tank).Select(f => f.Kind);
    }

    public sealed record Raised(
        int Rank, string? Tank, string Kind, string Reason, double ExpectedLoss, Hours? HoursLeft, int Fish, IReadOnlyList<string> Tanks,
        Cause? Cause = null);

    public sealed record Cause(string By, string Code);

    public sealed record Hours(double Low, double Mid, double High);

    /// <summary>Every case of this project.</summary>
    public static IEnumerable<string> Cases => Directory.GetFiles(Folder, "*.json").Select(f => Path.GetFileNameWithoutExtension(f)!).Order();

    public static string FileOf(string name) => Path.Combine(Folder, name + ".json");

    /// <summary>Replays a case of this project with nothing configured.</summary>
    public static async Task<Replayed> CaseAsync(string name)
    {
        using var installation = Installation.Unconfigured();
        return Read((await installation.RunAsync("replay", "--case", FileOf(name))).Good().Output);
    }

    public static Replayed Read(string json) => JsonSerializer.Deserialize<Replayed>(json, Json)!;

    private static string Folder => Path.Combine(AppContext.BaseDirectory, "Cases");
}
