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
    /// <summary>Calls told one by one; nobody reads a longer mail.</summary>
    private const int MostCalls = 40;

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

    /// <summary>The calls in their order, numbered when there are several, then where to find the rest.</summary>
    public async Task<string> TextAsync(
        string firstLine, IReadOnlyList<RoundCall> calls, RoundNow round, LetterPhrases phrases, IReadOnlyList<string> after, string programme, CancellationToken cancel)
    {
        var adults = await AdultsAsync([.. calls.Take(MostCalls).Select(c => c.Place.School.Id).Distinct()], cancel);
        List<string> lines = [firstLine, ""];
        for (var i = 0; i < Math.Min(calls.Count, MostCalls); i++)
        {
            lines.Add($"{(calls.Count > 1 ? $"{(i + 1).ToString(CultureInfo.InvariantCulture)}. " : "")}{Who(calls[i])}: {phrases.Urgency(calls[i].Urgency)}");
            lines.AddRange(About(calls[i], round, phrases, [.. adults[calls[i].Place.School.Id]]).Select(line => $"   {line}"));
            lines.Add("");
        }

        if (calls.Count > MostCalls)
        {
            lines.AddRange([phrases.More(calls.Count - MostCalls), ""]);
        }

        lines.AddRange(after.SelectMany(line => new[] { line, "" }));
        lines.AddRange([$"{phrases.WholeRound}: {Address("round")}", $"{phrases.YourMails}: {Address("me")}", "", phrases.Sender(programme)]);
        return string.Join('\n', lines);
    }

    public static string Who(RoundCall call) => $"{call.Place.School.Name}, {call.Place.Room.Name} ({call.Place.Tank.Code})";

    private IEnumerable<string> About(RoundCall call, RoundNow round, LetterPhrases phrases, IReadOnlyList<Adult> adults)
    {
        yield return phrases.Reason(call, round);
        if (call.Call.HoursLeft is { } hours)
        {
            yield return phrases.HoursLeft(hours);
        }

        if (call.Leading.TakenByName is { } name)
        {
            yield return phrases.TakenBy(name);
        }

        if (adults.Count > 0)
        {
            yield return phrases.Ring(adults);
        }

        yield return Address($"round?tank={Uri.EscapeDataString(call.Place.Tank.Code)}");
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
