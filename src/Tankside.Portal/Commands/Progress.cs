using System.Globalization;

namespace Tankside.Portal.Commands;

/// <summary>How far a long command is: a bar that grows where somebody looks on, a line each tenth part where it goes into a file.</summary>
public sealed class Progress(TextWriter to, string what) : IDisposable
{
    private const int Width = 30;

    private int part = -1;

    public void Tell(int done, int of)
    {
        var parts = Console.IsErrorRedirected ? 10 : 100;
        if (of == 0 || (done < of && (long)done * parts / of == part))
        {
            return;
        }

        part = (int)((long)done * parts / of);
        var filled = (int)((long)done * Width / of);
        var bar = Console.IsErrorRedirected ? "" : $"\r[{new string('#', filled)}{new string('.', Width - filled)}] ";
        to.Write(string.Create(CultureInfo.InvariantCulture, $"{bar}{done} of {of} {what}"));
        if (Console.IsErrorRedirected)
        {
            to.WriteLine();
        }
    }

    public void Dispose()
    {
        if (!Console.IsErrorRedirected && part >= 0)
        {
            to.WriteLine();
        }
    }
}
