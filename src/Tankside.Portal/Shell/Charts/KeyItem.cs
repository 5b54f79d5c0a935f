namespace Tankside.Portal.Shell.Charts;

/// <summary>One line of a chart's key.</summary>
/// <param name="Text">What it means, in the reader's language.</param>
/// <param name="Class">The colour class of the swatch.</param>
/// <param name="Strokes">The swatch, 26 by 14.</param>
public sealed record KeyItem(string Text, string Class, string Strokes)
{
    public static KeyItem Line(string text) =>
        new(text, "in-river", """<path d="M0 7h26" stroke="currentColor" stroke-width="2.5"/><circle cx="13" cy="7" r="3.2" fill="currentColor"/>""");

    public static KeyItem Dots(string text) =>
        new(text, "in-river", """<path d="M0 7h26" stroke="currentColor" stroke-width="1.5" stroke-dasharray="2 5"/>""");

    public static KeyItem Ground(string text) =>
        new(text, "in-river", """<rect width="26" height="14" fill="currentColor" fill-opacity=".16"/>""");

    public static KeyItem Fan(string text) =>
        new(text, "in-amber", """<path d="M0 9L26 0v14z" fill="currentColor" fill-opacity=".4"/>""");

    public static KeyItem Closed(string text) =>
        new(text, "in-soft", """<rect y="4" width="26" height="6" fill="currentColor" fill-opacity=".6"/>""");

    public static KeyItem Ring(string text) =>
        new(text, "", """<circle cx="13" cy="7" r="6" fill="none" stroke="currentColor" stroke-width="1.5" stroke-dasharray="3 2"/>""");

    public static KeyItem Bar(string text) =>
        new(text, "in-slate", """<rect x="6" width="14" height="14" fill="currentColor"/>""");

    public static KeyItem Dash(string text) =>
        new(text, "", """<path d="M0 7h26" stroke="currentColor" stroke-width="2" stroke-dasharray="6 4"/>""");
}
