using System.Text;

namespace Tankside.Fuzz.Tests.Targets;

/// <summary>Texts of some words of a language, one after the other, with odd ones among them.</summary>
public static class Texts
{
    public static string Of(Dice dice, IReadOnlyList<string> words, int most, string between = " ")
    {
        var text = new StringBuilder();
        for (var i = dice.Below(most + 1); i > 0; i--)
        {
            text.Append(dice.OneIn(8) ? dice.Of(Mutations.Odd) : dice.Of(words)).Append(between.Length > 0 && !dice.OneIn(3) ? between : "");
        }

        return text.ToString();
    }

    public static byte[] Bytes(string text) => Encoding.UTF8.GetBytes(text);

    public static string Read(byte[] bytes) => Encoding.UTF8.GetString(bytes);

    /// <summary>A form as a browser sends it.</summary>
    public static byte[] Form(IEnumerable<(string Name, string Value)> fields) =>
        Bytes(string.Join('&', fields.Select(f => $"{Uri.EscapeDataString(f.Name)}={Uri.EscapeDataString(f.Value)}")));
}
