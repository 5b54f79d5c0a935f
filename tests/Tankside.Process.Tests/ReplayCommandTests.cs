using System.Text.Json;

namespace Tankside.Process.Tests;

/// <summary>The command <c>replay</c>: what it takes, what it answers, and what it says of a case it cannot read.</summary>
public class ReplayCommandTests
{
    private static readonly string Case = File.ReadAllText(Replayed.FileOf("warming-fast"));

    [Fact]
    public async Task A_replay_answers_the_rounds_in_the_documented_shape()
    {
        using var installation = Installation.Unconfigured();

        var answer = (await installation.RunAsync("replay", "--case", Replayed.FileOf("warming-fast"))).Good();

        using var json = JsonDocument.Parse(answer.Output);
        var rounds = json.RootElement.GetProperty("rounds");
        Assert.Equal(["2027-02-03T10:30:00-07:00", "2027-02-03T14:50:00-07:00"], rounds.EnumerateArray().Select(r => r.GetProperty("at").GetString()));
        var flags = rounds[1].GetProperty("flags").EnumerateArray().ToList();
        Assert.Equal(Enumerable.Range(1, flags.Count), flags.Select(f => f.GetProperty("rank").GetInt32()));
        Assert.All(flags, flag => Assert.Equal(JsonValueKind.String, flag.GetProperty("reason").ValueKind));
        Assert.All(flags, flag => Assert.Equal(JsonValueKind.Number, flag.GetProperty("expectedLoss").ValueKind));
        Assert.Equal("T1", flags[0].GetProperty("tank").GetString());
        Assert.Equal("T1", flags[0].GetProperty("tanks")[0].GetString());
        Assert.Equal("warming-fast", flags[0].GetProperty("kind").GetString());
        Assert.Equal(142, flags[0].GetProperty("fish").GetInt32());
        Assert.All(["low", "mid", "high"], end => Assert.True(flags[0].GetProperty("hoursLeft").GetProperty(end).GetDouble() > 0));
        Assert.Equal(JsonValueKind.Null, flags[^1].GetProperty("hoursLeft").ValueKind);
    }

    [Fact]
    public async Task A_replay_needs_no_database_and_looks_at_no_configuration()
    {
        using var installation = Installation.Unconfigured();
        installation.Settings["Tankside__Database"] = "Oracle";
        var file = Path.Combine(installation.Folder, "rounds.json");

        var answer = (await installation.RunAsync("replay", "--case", Replayed.FileOf("warm"), "--out", file)).Good();

        Assert.Empty(answer.Output);
        Assert.Equal("warm", Replayed.Read(await File.ReadAllTextAsync(file)).Rounds[0].Flags[0].Kind);
        Assert.Equal([file], Directory.GetFileSystemEntries(installation.Folder));
    }

    [Theory]
    [InlineData("\"timeZone\":", "\"timeZone\"", "case")]
    [InlineData("America/Denver", "Mars/Olympus", "timeZone")]
    [InlineData("\"open\": \"08:00\"", "\"open\": \"eight\"", "schoolDay.open")]
    [InlineData("\"open\": \"08:00\"", "\"open\": \"18:00\"", "schoolDay")]
    [InlineData("\"2027-02-04\"", "\"04/02/2027\"", "closures[0]")]
    [InlineData("rainbow-trout", "goldfish", "lots[0]")]
    [InlineData("\"fertilised\": \"2026-12-01\"", "\"fertilised\": \"2026-12-01\", \"fertilisedTo\": \"2026-11-01\"", "lots[0]")]
    [InlineData("\"code\": \"S\"", "\"code\": \"A\"", "lots[1]")]
    [InlineData("\"code\": \"A-STEADY\"", "\"code\": \"T1\"", "tanks")]
    [InlineData("\"code\": \"T1\"", "\"code\": \"\\ud800\"", "tanks[0].code")]
    [InlineData("\"lot\": \"A\"", "\"lot\": \"Q\"", "tanks[0]")]
    [InlineData("\"jacket\": \"none\"", "\"jacket\": \"wool\"", "tanks[0].jacket")]
    [InlineData("\"fish\": 142", "\"fish\": -1", "tanks[0].fish")]
    [InlineData("\"tank\": \"T1\", \"at\": \"2027-02-02T08:10:00-07:00\"", "\"tank\": \"T9\", \"at\": \"2027-02-02T08:10:00-07:00\"", "readings[0]")]
    [InlineData("\"2027-02-03T08:10:00-07:00\"", "\"2027-02-03T08:10:00\"", "readings[1]")]
    [InlineData("\"waterF\": 61.0", "\"waterF\": \"61\"", "readings[3]")]
    [InlineData("\"waterF\": 61.0", "\"waterf\": 61.0", "readings[3]")]
    [InlineData("\"2027-02-03T14:50:00-07:00\"", "\"half past two\"", "ask[1]")]
    public async Task A_case_that_cannot_be_read_ends_with_2_and_says_where(string good, string broken, string place)
    {
        Assert.Contains(good, Case, StringComparison.Ordinal);
        using var installation = Installation.Unconfigured();
        var file = Path.Combine(installation.Folder, "case.json");
        await File.WriteAllTextAsync(file, Case.Replace(good, broken, StringComparison.Ordinal));

        var answer = await installation.RunAsync("replay", "--case", file);

        Assert.Equal(2, answer.ExitCode);
        Assert.Empty(answer.Output);
        Assert.Contains(place, answer.Trouble, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_case_that_is_not_there_ends_with_2_and_names_the_file()
    {
        using var installation = Installation.Unconfigured();

        var answer = await installation.RunAsync("replay", "--case", "nowhere.json");

        Assert.Equal(2, answer.ExitCode);
        Assert.Contains("nowhere.json", answer.Trouble, StringComparison.Ordinal);
    }
}
