using System.Globalization;

namespace Tankside.Load.Faults;

/// <summary>A disk of a few megabytes in memory, which can be filled to the last byte. It needs the right to mount one.</summary>
public sealed class SmallDisk : IDisposable
{
    private readonly string filler;

    public SmallDisk(int megabytes)
    {
        Folder = Directory.CreateTempSubdirectory("tankside-disk-").FullName;
        Run("mount", "-t", "tmpfs", "-o", string.Create(CultureInfo.InvariantCulture, $"size={megabytes}m"), "tmpfs", Folder);
        filler = Path.Combine(Folder, "filler");
    }

    public static string? WhyUnavailable => Environment.IsPrivilegedProcess ? null : "The full disk needs the right to mount one: run it as root.";

    public string Folder { get; }

    public void Fill()
    {
        using var file = new FileStream(filler, FileMode.Append, FileAccess.Write, FileShare.None, bufferSize: 0);
        foreach (var size in new[] { 1 << 20, 4096, 1 })
        {
            var block = new byte[size];
            try
            {
                for (; ; )
                {
                    file.Write(block);
                }
            }
            catch (IOException)
            {
                // No more of this size.
            }
        }
    }

    public void MakeRoom() => File.Delete(filler);

    public void Dispose()
    {
        // The server that lay on it may need a moment to be gone.
        Run("umount", "--lazy", Folder);
        Directory.Delete(Folder);
    }

    private static void Run(string program, params string[] words)
    {
        using var process = System.Diagnostics.Process.Start(program, words);
        process.WaitForExit();
        if (process.ExitCode != 0)
        {
            throw new InvalidOperationException($"{program} ended with {process.ExitCode}.");
        }
    }
}
