using Tankside.Hatchery.People;
using Tankside.Hatchery.Readings;
using Tankside.Portal.Accounts;
using Tankside.Portal.Readings;
using Tankside.Portal.Shell;

namespace Tankside.Portal.Flags.AtTheTank;

/// <summary>The way a reading comes in: its address, and what is kept about who brought it.</summary>
/// <param name="ConfirmedBy">What is kept when a doubtful value is answered here.</param>
/// <param name="Token">Antiforgery token for a signed-in person; a class needs none.</param>
/// <param name="Words">The language of its pages.</param>
/// <param name="LanguageChosen">True when somebody chose it by the link on the page: every further address keeps it then.</param>
public sealed record Door(
    string Address, ReadingSource Source, Guid? EnteredBy, string ConfirmedBy, string? Token, string? TokenField, string? BackTo,
    ClassWords Words, bool LanguageChosen)
{
    public bool IsAdult => EnteredBy is not null;

    public static Door OfClass(string code, HttpRequest request) => new(
        $"/t/{code}", ReadingSource.Class, null, "class", null, null, null, WordsOf(request), IsChosen(request));

    /// <summary>With the stages called as the tank's programme calls them.</summary>
    public Door Calling(StageNames names) => names.AreOurs ? this : this with { Words = Words.Calling(text => names.In(text, Words.Language)) };

    /// <summary>An address behind this door, in the chosen language.</summary>
    /// <param name="query">Without its question mark.</param>
    public string To(string path = "", string? query = null) => In(LanguageChosen ? Words : null, path, query);

    /// <summary>This page in the other language.</summary>
    public string InOtherLanguage(string path = "", string? query = null) => In(Words.Other, path, query);

    private string In(ClassWords? words, string path, string? query)
    {
        var all = string.Join('&', new[] { query, words is null ? null : $"lang={words.Language}" }.OfType<string>());
        return all.Length == 0 ? Address + path : $"{Address}{path}?{all}";
    }

    public static ClassWords WordsOf(HttpRequest request) => ClassWords.Named(request.Query["lang"]) ?? ClassWords.Liked(request.Headers.AcceptLanguage);

    private static bool IsChosen(HttpRequest request) => ClassWords.Named(request.Query["lang"]) is not null;

    /// <summary>What a coordinator or lead enters is what somebody at the tank told them. The page is in the adult's own language.</summary>
    public static Door OfAdult(string tankCode, CurrentUser user, string token, string field, HttpRequest request) => new(
        $"/tanks/{tankCode}/reading",
        user.Is(Role.Coordinator, Role.ProgrammeLead) ? ReadingSource.PhoneCall : ReadingSource.Person,
        user.PersonId,
        user.PersonId.ToString(),
        token,
        field,
        $"/tanks/{tankCode}",
        ClassWords.Named(request.Query["lang"]) ?? ClassWords.Named(request.HttpContext.User.FindFirst(SpokenLanguage.Claim)?.Value) ?? WordsOf(request),
        IsChosen(request));
}
