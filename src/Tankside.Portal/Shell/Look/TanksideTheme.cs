using MudBlazor;

namespace Tankside.Portal.Shell.Look;

/// <summary>
/// The component library's theme for the interactive pages. Its colours repeat the tokens of <c>wwwroot/css/app.css</c>,
/// which has the last word (and the dark and high-contrast sets) without script; keep the two alike.
/// </summary>
public static class TanksideTheme
{
    private static readonly string[] Fonts = ["Atkinson Next", "system-ui", "sans-serif"];

    /// <summary>The one theme of the portal, light and dark.</summary>
    public static MudTheme Theme { get; } = new()
    {
        PaletteLight = Light(),
        PaletteDark = Dark(),
        LayoutProperties = new LayoutProperties { DefaultBorderRadius = "3px", AppbarHeight = "3.5rem" },
        Shadows = Flat(),
        Typography = Type(),
    };

    private static PaletteLight Light() => new()
    {
        Primary = "#0a4a57",
        PrimaryContrastText = "#ffffff",
        Secondary = "#454944",
        SecondaryContrastText = "#f5f5f0",
        Tertiary = "#55677a",
        TertiaryContrastText = "#ffffff",
        Info = "#0a4a57",
        InfoContrastText = "#ffffff",
        Success = "#0a4a57",
        SuccessContrastText = "#ffffff",
        Warning = "#654a0b",
        WarningContrastText = "#ffffff",
        Error = "#8b1a2b",
        ErrorContrastText = "#ffffff",
        Dark = "#1a1f1e",
        DarkContrastText = "#f5f5f0",
        Background = "#f5f5f0",
        BackgroundGray = "#e8e8e1",
        Surface = "#f5f5f0",
        TextPrimary = "#1a1f1e",
        TextSecondary = "#454944",
        TextDisabled = "#454944",
        ActionDefault = "#454944",
        ActionDisabled = "#7b7e76",
        ActionDisabledBackground = "#e8e8e1",
        LinesDefault = "#cfd0c7",
        LinesInputs = "#7b7e76",
        TableLines = "#cfd0c7",
        TableHover = "#e8e8e1",
        Divider = "#cfd0c7",
        AppbarBackground = "#f5f5f0",
        AppbarText = "#1a1f1e",
    };

    private static PaletteDark Dark() => new()
    {
        Primary = "#86cdd6",
        PrimaryContrastText = "#0c1b1e",
        Secondary = "#bcc5c2",
        SecondaryContrastText = "#12181a",
        Tertiary = "#9fb2c6",
        TertiaryContrastText = "#12181a",
        Info = "#86cdd6",
        InfoContrastText = "#0c1b1e",
        Success = "#86cdd6",
        SuccessContrastText = "#0c1b1e",
        Warning = "#d3a64a",
        WarningContrastText = "#12181a",
        Error = "#ffb0b4",
        ErrorContrastText = "#12181a",
        Dark = "#eceeea",
        DarkContrastText = "#12181a",
        Background = "#12181a",
        BackgroundGray = "#1d2527",
        Surface = "#12181a",
        TextPrimary = "#eceeea",
        TextSecondary = "#bcc5c2",
        TextDisabled = "#bcc5c2",
        ActionDefault = "#bcc5c2",
        ActionDisabled = "#84908e",
        ActionDisabledBackground = "#1d2527",
        LinesDefault = "#364042",
        LinesInputs = "#84908e",
        TableLines = "#364042",
        TableHover = "#1d2527",
        Divider = "#364042",
        AppbarBackground = "#12181a",
        AppbarText = "#eceeea",
    };

    private static Shadow Flat()
    {
        var shadow = new Shadow();
        Array.Fill(shadow.Elevation, "none");
        return shadow;
    }

    private static Typography Type() => new()
    {
        Default = new DefaultTypography { FontFamily = Fonts, FontSize = "1rem", LineHeight = "1.45", LetterSpacing = "normal" },
        H1 = new H1Typography { FontFamily = Fonts, FontSize = "2.1rem", FontWeight = "700", LineHeight = "1.18", LetterSpacing = "normal" },
        H2 = new H2Typography { FontFamily = Fonts, FontSize = "1.3rem", FontWeight = "700", LineHeight = "1.18", LetterSpacing = "normal" },
        H3 = new H3Typography { FontFamily = Fonts, FontSize = "1.05rem", FontWeight = "700", LineHeight = "1.18", LetterSpacing = "normal" },
        Body1 = new Body1Typography { FontFamily = Fonts, FontSize = "1rem", LineHeight = "1.45", LetterSpacing = "normal" },
        Body2 = new Body2Typography { FontFamily = Fonts, FontSize = ".95rem", LineHeight = "1.45", LetterSpacing = "normal" },
        Subtitle1 = new Subtitle1Typography { FontFamily = Fonts, FontSize = "1.05rem", FontWeight = "700", LetterSpacing = "normal" },
        Subtitle2 = new Subtitle2Typography { FontFamily = Fonts, FontSize = ".95rem", FontWeight = "700", LetterSpacing = "normal" },
        Button = new ButtonTypography { FontFamily = Fonts, FontSize = "1rem", FontWeight = "700", TextTransform = "none", LetterSpacing = "normal" },
        Caption = new CaptionTypography { FontFamily = Fonts, FontSize = ".88rem", LetterSpacing = "normal" },
        Overline = new OverlineTypography { FontFamily = Fonts, FontSize = ".88rem", TextTransform = "none", LetterSpacing = "normal" },
    };
}
