using QRCoder;

namespace Tankside.Portal.Shell.Paper;

/// <summary>The dark and light squares of a QR code, its quiet margin of four included.</summary>
public sealed class QrModules
{
    private readonly bool[][] dark;

    private QrModules(bool[][] dark) => this.dark = dark;

    /// <summary>Squares along an edge.</summary>
    public int Size => dark.Length;

    /// <summary>A label hangs in the wet: a quarter of the code may be spoilt and it still reads.</summary>
    public static QrModules Of(string text)
    {
        using var generator = new QRCodeGenerator();
        using var code = generator.CreateQrCode(text, QRCodeGenerator.ECCLevel.Q);
        return new QrModules([.. code.ModuleMatrix.Select(row => row.Cast<bool>().ToArray())]);
    }

    /// <summary>Dark squares that lie side by side, row by row.</summary>
    public IEnumerable<(int Row, int From, int Length)> DarkRuns()
    {
        for (var row = 0; row < Size; row++)
        {
            for (var at = 0; at < Size; at++)
            {
                var from = at;
                while (at < Size && dark[row][at])
                {
                    at++;
                }

                if (at > from)
                {
                    yield return (row, from, at - from);
                }
            }
        }
    }
}
