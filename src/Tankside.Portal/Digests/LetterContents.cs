using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Tankside.Hatchery.People;
using Tankside.Portal.Flags;
using Tankside.Portal.Shell;
using Tankside.Storage;

namespace Tankside.Portal.Digests;

/// <summary>The round as it stands, set as the text of a mail. It names adults and tanks; nothing about a child is in it.</summary>
public sealed class LetterContents(IServiceScopeFactory scopes, IDbContextFactory<HatcheryDb> databases, TanksideOptions options)
{
    /// <summary>Rows told one by one; nobody reads a longer mail.</summary>
    private const int MostRows = 40;

    public async Task<RoundNow> RoundAsync(Guid programme, CancellationToken cancel)
    {
        await using var scope = scopes.CreateAsyncScope();
        return await scope.ServiceProvider.GetRequiredService<Round>().LoadAsync(programme, cancel);
    }

    /// <summary>The language of a person and the name of the programme.</summary>
    public async Task<(LetterPhrases Phrases, string Programme)> ForAsync(Guid? person, Guid programme, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var language = await db.Users.Where(p => p.Id == person).Select(p => p.Language).SingleOrDefaultAsync(cancel);
        return (LetterPhrases.In(language ?? "en"), await db.Programmes.Where(p => p.Id == programme).Select(p => p.Name).SingleAsync(cancel));
    }

    /// <summary>The rows in their order, numbered when there are several, then where to find the rest.</summary>
    public async Task<string> TextAsync(
        string firstLine, IReadOnlyList<RoundRow> rows, RoundNow round, LetterPhrases phrases, IReadOnlyList<string> after, string programme, CancellationToken cancel)
    {
        var adults = await AdultsAsync([.. rows.Take(MostRows).OfType<RoundCall>().Select(c => c.Place.School.Id).Distinct()], cancel);
        List<string> lines = [firstLine, ""];
        for (var i = 0; i < Math.Min(rows.Count, MostRows); i++)
        {
            lines.Add($"{(rows.Count > 1 ? $"{(i + 1).ToString(CultureInfo.InvariantCulture)}. " : "")}{phrases.Who(rows[i])}: {phrases.Urgency(rows[i].Urgency)}");
            lines.AddRange(About(rows[i], round, phrases, adults).Select(line => $"   {line}"));
            lines.Add("");
        }

        if (rows.Count > MostRows)
        {
            lines.AddRange([phrases.More(rows.Count - MostRows), ""]);
        }

        lines.AddRange(after.SelectMany(line => new[] { line, "" }));
        lines.AddRange([$"{phrases.WholeRound}: {Address("round")}", $"{phrases.YourMails}: {Address("me")}", "", phrases.Sender(programme)]);
        return string.Join('\n', lines);
    }

    private IEnumerable<string> About(RoundRow row, RoundNow round, LetterPhrases phrases, ILookup<Guid, Adult> adults)
    {
        yield return phrases.Reason(row, round);
        if (row is RoundCall { Call.HoursLeft: { } hours })
        {
            yield return phrases.HoursLeft(hours);
        }

        if (row.Leading.TakenByName is { } name)
        {
            yield return phrases.TakenBy(name);
        }

        if (row is RoundCall call && adults[call.Place.School.Id].ToList() is { Count: > 0 } at)
        {
            yield return phrases.Ring(at);
        }

        yield return Address($"round?{(row is RoundShared ? "cause" : "tank")}={Uri.EscapeDataString(row.Key)}");
    }

    private async Task<ILookup<Guid, Adult>> AdultsAsync(IReadOnlyList<Guid> schools, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var teachers = await (
            from person in db.Users
            join member in db.Memberships on person.Id equals member.PersonId
            where member.Role == Role.Teacher && member.SchoolId != null && schools.Contains(member.SchoolId.Value)
            orderby person.Name
            select new { School = member.SchoolId!.Value, person.Name, person.PhoneNumber }).ToListAsync(cancel);
        return teachers.ToLookup(t => t.School, t => new Adult(t.Name, string.IsNullOrWhiteSpace(t.PhoneNumber) ? null : t.PhoneNumber));
    }

    private string Address(string path) => new Uri(options.PublicUrl, path).ToString();
}
