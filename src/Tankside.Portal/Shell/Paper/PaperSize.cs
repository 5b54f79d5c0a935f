namespace Tankside.Portal.Shell.Paper;

/// <summary>A sheet that printers hold, in millimetres.</summary>
/// <param name="Name">As addresses name it.</param>
/// <param name="Word">As people name it.</param>
public sealed record PaperSize(string Name, string Word, double Width, double Height)
{
    public static readonly PaperSize A4 = new("a4", "A4", 210, 297), Letter = new("letter", "US Letter", 215.9, 279.4);

    public static readonly IReadOnlyList<PaperSize> All = [A4, Letter];

    /// <summary>The same sheet lying on its long side.</summary>
    public PaperSize Turned => this with { Width = Height, Height = Width };

    /// <summary>Null for a sheet that there is not.</summary>
    public static PaperSize? Named(string? name) => All.FirstOrDefault(p => p.Name.Equals(name, StringComparison.OrdinalIgnoreCase));
}

/// <summary>A place on a page: millimetres from its upper left corner.</summary>
public readonly record struct Box(double X, double Y, double Width, double Height)
{
    public double Right => X + Width;

    public double Bottom => Y + Height;

    public Box Inset(double by) => new(X + by, Y + by, Width - (2 * by), Height - (2 * by));

    public Box Inset(double across, double down) => new(X + across, Y + down, Width - (2 * across), Height - (2 * down));
}
