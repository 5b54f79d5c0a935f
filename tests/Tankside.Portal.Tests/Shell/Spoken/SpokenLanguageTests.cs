using System.Net;
using System.Text.RegularExpressions;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Shell;
using Tankside.Portal.Tests.Kit;
using Tankside.Portal.Tests.Readings;
using Tankside.Portal.Tests.Readings.Sheets;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Shell.Spoken;

/// <summary>An adult reads in the language they chose, nobody in particular in the browser's or the one of the link.</summary>
public partial class SpokenLanguageTests
{
    [Theory, BothDatabases]
    public async Task A_Spanish_teacher_meets_no_English_sentence_on_the_way(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        await host.AcceptAsync(Sent.Water(world.One.Tanks[0], host.Now.AddMinutes(-30), 12.6));
        await host.JudgeAsync();
        var tank = world.One.Tanks[0].Code;

        await AssertAllSpanishAsync(host, world.One, Role.Teacher, [
            "/", "/tanks", $"/tanks/{tank}", $"/tanks/{tank}/photos", $"/tanks/{tank}/cards", $"/kit/ice/{tank}", "/labels", $"/labels/{tank}/replace", "/weekend",
            "/releases/bookings", "/releases/bookings/ask", "/readings/import", "/me", "/me/data", "/not-found", $"/tanks/{tank}/plan", $"/tanks/{tank}/plan?goal=fly", $"/tanks/{tank}/plan?goal=swim-up-by&day=2027-02-04",
            "/bench", "/bench/development?species=coho-salmon&stage=hatch&mean=50", "/bench/ammonia?totalMgL=1&ph=8&water=50", "/bench/interval?alive=81&of=263"]);
    }

    [Theory, BothDatabases]
    public async Task A_Spanish_teacher_meets_no_English_sentence_on_a_sheet_that_is_brought_in(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var tank = world.One.Tanks[0].Code;
        var teacher = await host.ClientAs(Role.Teacher, world.One);
        var (stored, _) = await host.ImportAsync(teacher, $"Tank,Date,Time,Water °F,Hatched\n{tank},1/31/2027,8:15 AM,51.5,half\n{tank},1/31/2027,9:15,5.2,most\n");
        var looked = await teacher.UploadAsync($"Tank,Date,Water °F,Room °F,pH,Moving\n{tank},1/31/2027,52,70,7,y\n{tank},1/31/2027,512,70,77,y\n{tank},1/32/2027,52,,,y\nZ999,1/30/2027,52,x,y,z\n");
        var asked = await teacher.UploadAsync("When,Water,Dead\n2/3/2027,52,1\n");

        await AssertAllSpanishAsync(host, world.One, Role.Teacher, [stored, looked, asked, "/readings/import"]);
        Assert.Contains("is not a date with day, month and year", await teacher.GetStringAsync($"{looked}/rows.csv"), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task A_Spanish_kit_hand_meets_no_English_sentence_on_the_way(DatabaseKind kind)
    {
        await using var kit = await KitWorld.CreateAsync(kind);
        var (host, world) = (kit.Host, kit.World);
        await host.AcceptAsync(Sent.Water(world.One.Tanks[0], host.Now.AddMinutes(-30), 10.5) with { Seen = new Observation { ChillerRunning = false, Moving = true } });
        await host.JudgeAsync();

        await AssertAllSpanishAsync(host, world.One, Role.KitHand, [
            "/", "/tanks", $"/tanks/{world.One.Tanks[0].Code}", "/kit", "/kit/CH-1", "/kit/CH-1?do=Fault", "/kit/CH-1/swap", "/kit/CH-1/correct", "/kit/new", "/kit/stock", "/kit/depots",
            "/kit/failures", "/kit/spares", "/kit/spares?kind=Pump&failures=120&number=x", "/me"]);
    }

    [Theory, BothDatabases]
    public async Task A_page_that_is_not_spoken_yet_is_English_as_a_whole(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        await SpeakSpanishAsync(host, world.One.EmailOf(Role.Coordinator));
        var coordinator = await host.ClientAs(Role.Coordinator, world.One);

        var page = await coordinator.GetStringAsync("/schools");

        Assert.Contains("<html lang=\"en\">", page, StringComparison.Ordinal);
        Assert.Contains("Skip to the page", page, StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task Nobody_reads_in_the_browsers_language_and_by_the_link_in_the_other(DatabaseKind kind)
    {
        await using var host = await PortalHost.CreateAsync(kind);
        var nobody = host.Anonymous();
        nobody.DefaultRequestHeaders.Add("Accept-Language", "es-MX,es;q=0.9,en;q=0.8");

        Assert.Contains("Olvidé mi contraseña", await ReadAsync(nobody, "/sign-in?to=%2Ftanks"), StringComparison.Ordinal);
        Assert.Contains("I forgot my password", await ReadAsync(nobody, OtherLanguage(await nobody.GetStringAsync("/sign-in?to=%2Ftanks"))), StringComparison.Ordinal);
        Assert.Contains("Get a new password", await ReadAsync(nobody, "/forgot-password"), StringComparison.Ordinal);
        Assert.Contains("Pedir una contraseña nueva", await ReadAsync(nobody, OtherLanguage(await nobody.GetStringAsync("/forgot-password"))), StringComparison.Ordinal);
        Assert.Contains("Olvidé mi contraseña", await ReadAsync(nobody, "/sign-in"), StringComparison.Ordinal);
        Assert.Contains("Esto no abre ninguna hoja.", WebUtility.HtmlDecode(await (await nobody.GetAsync("/run/guessed")).Content.ReadAsStringAsync()), StringComparison.Ordinal);
    }

    [Theory, BothDatabases]
    public async Task The_cookie_of_the_link_holds_the_language_and_nothing_else(DatabaseKind kind)
    {
        await using var host = await PortalHost.CreateAsync(kind);

        var answer = await host.Anonymous().GetAsync("/sign-in?language=es");
        var made = await host.Anonymous().GetAsync("/sign-in?language=<b>");

        Assert.Contains(answer.Headers.GetValues("Set-Cookie"), c => c.StartsWith("tankside-language=es;", StringComparison.Ordinal) && c.Contains("httponly", StringComparison.OrdinalIgnoreCase));
        Assert.DoesNotContain(made.Headers.TryGetValues("Set-Cookie", out var set) ? set : [], c => c.StartsWith("tankside-language", StringComparison.Ordinal));
    }

    [Theory, BothDatabases]
    public async Task Whoever_chooses_a_language_on_their_page_reads_the_answer_in_it(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var teacher = await host.ClientAs(Role.Teacher, world.One);

        await teacher.PostFormAsync("/me", new Dictionary<string, string> { ["Input.Language"] = "es" }, "me");

        Assert.Contains("Idioma de sus páginas y correos", await ReadAsync(teacher, "/me"), StringComparison.Ordinal);
    }

    private static async Task AssertAllSpanishAsync(PortalHost host, TestProgramme programme, Role role, string[] addresses)
    {
        await SpeakSpanishAsync(host, programme.EmailOf(role));
        var client = await host.ClientAs(role, programme);
        foreach (var address in addresses)
        {
            // What a field is called is no word that anybody reads.
            var page = FieldName().Replace(WebUtility.HtmlDecode(await client.GetStringAsync(address)), "");

            Assert.Contains("<html lang=\"es\">", page, StringComparison.Ordinal);
            Assert.Equal([], Sentences().Where(s => page.Contains(s, StringComparison.Ordinal)).Select(s => $"{address}: {s}"));
        }
    }

    private static Task SpeakSpanishAsync(PortalHost host, string email) => host.SeedAsync(db => db.Users.Single(p => p.Email == email).Language = "es");

    private static async Task<string> ReadAsync(HttpClient client, string address) => WebUtility.HtmlDecode(await client.GetStringAsync(address));

    private static string OtherLanguage(string page) => WebUtility.HtmlDecode(Link().Match(page).Groups[1].Value);

    /// <summary>What stands between the values of every English sentence, where it is long enough to be told from a name.</summary>
    private static IEnumerable<string> Sentences() => Say.All.Where(t => t.Key != t.Value)
        .SelectMany(t => Slot().Split(t.Key.Split('|')[0])).Select(p => p.Trim()).Where(p => p.Count(char.IsLetter) > 12).Distinct();

    [GeneratedRegex("hreflang=\"..\" href=\"([^\"]+)\"")]
    private static partial Regex Link();

    [GeneratedRegex("\\bname=\"[^\"]*\"")]
    private static partial Regex FieldName();

    [GeneratedRegex(@"\{\d\}")]
    private static partial Regex Slot();
}
