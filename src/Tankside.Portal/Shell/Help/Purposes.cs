using System.Globalization;
using System.Resources;

namespace Tankside.Portal.Shell.Help;

/// <summary>What each page is for, by its route: Purposes.resx in English, Purposes.es.resx in Spanish where a teacher, volunteer or visitor may open it.</summary>
public static class Purposes
{
    private static readonly ResourceManager Texts = new(typeof(Purposes));

    /// <summary>Null where nothing is written; a test finds such a page. English where there is no Spanish.</summary>
    public static string? Of(string? route, string language) => route is null ? null : Texts.GetString(route, CultureInfo.GetCultureInfo(language));
}
