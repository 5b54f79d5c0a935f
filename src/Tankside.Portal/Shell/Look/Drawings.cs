namespace Tankside.Portal.Shell.Look;

/// <summary>
/// The strokes of each <see cref="Picture"/>. Everything is drawn in <c>currentColor</c> with presentation attributes
/// only, because the class pages forbid style attributes and every page must also print in black and white.
/// </summary>
internal static class Drawings
{
    private const string Pebbles =
        """
        <g fill="currentColor" fill-opacity=".16"><ellipse cx="9" cy="75" rx="12" ry="7"/><ellipse cx="31" cy="77" rx="11" ry="6"/>
        <ellipse cx="52" cy="76" rx="12" ry="7"/><ellipse cx="74" cy="77" rx="11" ry="6"/><ellipse cx="94" cy="75" rx="11" ry="7"/>
        <ellipse cx="112" cy="77" rx="10" ry="6"/></g>
        """;

    private const string Tank = """<path d="M6 8v30a3 3 0 0 0 3 3h30a3 3 0 0 0 3-3V8" fill="none" stroke="currentColor" stroke-width="2.5" stroke-linecap="round"/>""";

    /// <summary>The drawing area and the strokes of one picture.</summary>
    public static (string ViewBox, string Strokes) Of(Picture picture) => picture switch
    {
        Picture.Brand => ("0 0 32 32", Brand),
        Picture.Egg => ("0 0 120 84", Pebbles + Egg),
        Picture.EyedEgg => ("0 0 120 84", Pebbles + EyedEgg),
        Picture.Alevin => ("0 0 120 84", Pebbles + Alevin),
        Picture.Fry => ("0 0 120 84", Fry),
        Picture.Fingerling => ("0 0 120 84", Fingerling),
        Picture.WaterMoving => ("0 0 48 48", Tank + WaterMoving),
        Picture.Bubbles => ("0 0 48 48", Tank + Bubbles),
        Picture.Level => ("0 0 48 48", Tank + Level),
        Picture.Clear => ("0 0 48 48", Tank + Clear),
        Picture.ActNow => ("0 0 16 16", """<path d="M8 0l8 8-8 8-8-8z" fill="currentColor"/>"""),
        Picture.Today => ("0 0 16 16", """<circle cx="8" cy="8" r="6" fill="none" stroke="currentColor" stroke-width="1.6"/><path d="M2 8h12a6 6 0 0 1-12 0z" fill="currentColor"/>"""),
        Picture.ThisWeek => ("0 0 16 16", """<circle cx="8" cy="8" r="5.6" fill="none" stroke="currentColor" stroke-width="2.4"/>"""),
    };

    private const string Brand =
        """
        <path d="M4 3v21a5 5 0 0 0 5 5h14a5 5 0 0 0 5-5V3" fill="none" stroke="currentColor" stroke-width="3" stroke-linecap="round"/>
        <path d="M4 10h24" stroke="currentColor" stroke-width="3"/><g fill="currentColor"><circle cx="11.5" cy="23.2" r="3.1"/><circle cx="18.6" cy="23.2" r="3.1"/><circle cx="15" cy="17" r="3.1"/></g>
        """;

    private const string Egg =
        """
        <circle cx="60" cy="42" r="28" fill="currentColor" fill-opacity=".14" stroke="currentColor" stroke-width="3"/>
        <path d="M42 34a21 21 0 0 1 12-10" fill="none" stroke="currentColor" stroke-width="3" stroke-linecap="round" stroke-opacity=".6"/>
        <g fill="currentColor" fill-opacity=".4"><circle cx="66" cy="50" r="4"/><circle cx="74" cy="43" r="2.6"/><circle cx="60" cy="57" r="2.4"/></g>
        """;

    private const string EyedEgg =
        """
        <circle cx="60" cy="42" r="28" fill="currentColor" fill-opacity=".14" stroke="currentColor" stroke-width="3"/>
        <path d="M41 50c2-15 14-22 27-16 10 5 11 17 3 22" fill="none" stroke="currentColor" stroke-width="4.5" stroke-linecap="round" stroke-opacity=".45"/>
        <circle cx="60" cy="34" r="5.2" fill="currentColor"/><circle cx="73" cy="39" r="5.2" fill="currentColor"/>
        <path d="M41 33a21 21 0 0 1 8-8" fill="none" stroke="currentColor" stroke-width="3" stroke-linecap="round" stroke-opacity=".6"/>
        """;

    private const string Alevin =
        """
        <path d="M28 54.5c0 11 10 19.5 22 18.5 11-1 19-9 18.5-18.5z" fill="currentColor" fill-opacity=".34"/><path d="M28 54.5c0 11 10 19.5 22 18.5 11-1 19-9 18.5-18.5" fill="none" stroke="currentColor" stroke-width="2.6"/>
        <path d="M10 43c0-9 9-15 20-14 14 2 26 6 42 8 12 1 22 0 30-5 5-3 9-4 13-3-1 6-2 10-3 14 2 5 3 9 5 14-6-1-11-3-16-5-12 1-20 2-32 3-14 1-28 2-39 0-12-1-20-5-20-12z"
              fill="currentColor" fill-opacity=".14" stroke="currentColor" stroke-width="3" stroke-linejoin="round"/>
        <circle cx="23" cy="40" r="5.6" fill="currentColor"/>
        <path d="M40 43c20 3 38 3 58 1" fill="none" stroke="currentColor" stroke-width="2" stroke-opacity=".5" stroke-linecap="round"/>
        """;

    private const string Fry =
        """
        <g fill="currentColor" fill-opacity=".14" stroke="currentColor" stroke-width="3" stroke-linejoin="round">
        <path d="M18 44c8-13 24-18 40-16 13 1 24 7 32 13 6-2 10-6 14-11 1 8 0 12-3 16 3 4 4 8 4 15-5-5-10-8-16-9-9 6-20 9-32 9-17 1-31-5-39-17z"/>
        <path d="M54 28c3-6 9-9 16-9-1 5-1 8 1 12"/><path d="M58 60c1 5 4 8 10 9 0-4 0-7-1-10"/></g>
        <circle cx="32" cy="41" r="4.6" fill="currentColor"/>
        <path d="M43 35c4 5 4 12 0 17" fill="none" stroke="currentColor" stroke-width="2.4" stroke-linecap="round"/>
        <path d="M52 46h34" fill="none" stroke="currentColor" stroke-width="2" stroke-opacity=".5" stroke-linecap="round" stroke-dasharray="1 6"/>
        """;

    private const string Fingerling =
        """
        <g fill="currentColor" fill-opacity=".14" stroke="currentColor" stroke-width="3" stroke-linejoin="round">
        <path d="M4 44c9-14 26-20 46-19 17 1 32 6 45 14 7-2 13-7 18-13 2 9 1 14-3 19 4 5 6 10 6 19-6-7-13-11-20-12-13 8-27 12-45 12C32 65 13 58 4 44z"/>
        <path d="M44 25c3-8 10-12 20-12-2 6-1 10 2 14"/><path d="M46 64c1 6 5 9 12 11 0-5 0-8-1-11"/><path d="M78 59c2 5 6 7 11 8-1-5-2-8-3-11"/>
        <path d="M80 31c2-3 5-5 9-5-1 4-1 6 0 9"/></g>
        <g fill="currentColor" fill-opacity=".42"><ellipse cx="41" cy="45" rx="3" ry="8"/><ellipse cx="52" cy="45" rx="3" ry="8.5"/><ellipse cx="63" cy="45" rx="3" ry="8"/>
        <ellipse cx="74" cy="45" rx="2.7" ry="7"/><ellipse cx="84" cy="45" rx="2.4" ry="6"/><ellipse cx="93" cy="45" rx="2" ry="4.6"/></g>
        <circle cx="19" cy="41" r="4.4" fill="currentColor"/>
        <path d="M30 33c4 7 4 16 0 23" fill="none" stroke="currentColor" stroke-width="2.4" stroke-linecap="round"/>
        """;

    private const string WaterMoving =
        """
        <path d="M7 14.5c3-2.8 5.5-2.8 8.5 0s5.5 2.8 8.5 0 5.5-2.8 8.5 0 5.5 2.8 8.5 0" fill="none" stroke="currentColor" stroke-width="2.5"/>
        <g fill="none" stroke="currentColor" stroke-width="2.6" stroke-linecap="round" stroke-linejoin="round">
        <path d="M12 24.5c4-3.5 7-3.5 11 0s7 3.5 11.5 0M31 22.5l4 1.6-1.5 4"/><path d="M12 34c4-3.5 7-3.5 11 0s7 3.5 11.5 0M31 32l4 1.6-1.5 4"/></g>
        """;

    private const string Bubbles =
        """
        <path d="M7 14h34" stroke="currentColor" stroke-width="2.5"/>
        <rect x="17" y="35" width="14" height="4" rx="1.5" fill="currentColor"/>
        <g fill="currentColor" fill-opacity=".16" stroke="currentColor" stroke-width="2.2"><circle cx="24" cy="30" r="2.6"/><circle cx="18.5" cy="24.5" r="3.2"/><circle cx="28.5" cy="21.5" r="3.8"/></g>
        <circle cx="22" cy="8" r="2.2" fill="none" stroke="currentColor" stroke-width="2"/>
        """;

    private const string Level =
        """
        <path d="M7.2 19h33.6v19a1.8 1.8 0 0 1-1.8 1.8H9A1.8 1.8 0 0 1 7.2 38z" fill="currentColor" fill-opacity=".2"/>
        <path d="M7 19h34" stroke="currentColor" stroke-width="3"/><path d="M24 17l-7-10h14z" fill="currentColor"/>
        <path d="M17 25.5h14M20.5 31h7" stroke="currentColor" stroke-width="2.4" stroke-linecap="round"/>
        """;

    private const string Clear =
        """
        <path d="M7 14h34" stroke="currentColor" stroke-width="2.5"/>
        <path d="M11 27c4-6 13-7.5 20-1.5 2-.8 4-2.5 5.5-4.5.7 3 .5 5-.5 6.5 1 1.8 1.2 3.6.5 6.5-1.5-2-3.5-3.5-5.5-4.3-7 5.3-16 3.8-20-2.7z"
              fill="currentColor" fill-opacity=".18" stroke="currentColor" stroke-width="2.4" stroke-linejoin="round"/>
        <circle cx="17" cy="26" r="1.9" fill="currentColor"/>
        """;
}
