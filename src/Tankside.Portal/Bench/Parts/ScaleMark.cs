namespace Tankside.Portal.Bench.Parts;

/// <summary>A value worth knowing on a scale, such as a limit.</summary>
/// <param name="Value">Where it stands.</param>
/// <param name="Text">Its word on the scale, short.</param>
/// <param name="Meaning">Its meaning in the table behind the picture.</param>
public sealed record ScaleMark(double Value, string Text, string Meaning);
