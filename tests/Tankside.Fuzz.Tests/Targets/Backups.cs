using System.IO.Compression;
using System.Security.Cryptography;
using System.Text;
using Tankside.Portal.Commands.Backups;

namespace Tankside.Fuzz.Tests.Targets;

/// <summary>A file that is said to be a backup: whatever it holds, it is opened or refused.</summary>
public static class Backups
{
    private const string About = "{\"format\":1,\"program\":\"0.1.0\",\"at\":\"2027-02-03T15:00:00Z\",\"database\":\"Sqlite\",\"schema\":\"x\",\"tables\":[{\"name\":\"tanks\",\"rows\":2,\"columns\":[]}],\"parts\":[{\"name\":\"a\",\"sha256\":\"00\"}]}";

    private static readonly string File = Path.Combine(Path.GetTempPath(), $"tankside-fuzz-{Environment.ProcessId}.zip");

    static Backups() => AppDomain.CurrentDomain.ProcessExit += (_, _) => System.IO.File.Delete(File);

    public static Target Target { get; } = new("backups", Make, Read) { Words = ["null", "99", "\"format\":", "[]", "about.json", "Tankside backup, sha256 "], MostBytesOnce = 16 << 20 };

    private static byte[] Make(Dice dice)
    {
        var about = dice.OneIn(3) ? Texts.Bytes(About) : Mutations.Of(dice, Texts.Bytes(About), [Texts.Bytes(About)], Target.Words, 4_000);
        using var stream = new MemoryStream();
        using (var zip = new ZipArchive(stream, ZipArchiveMode.Create, leaveOpen: true))
        {
            zip.Comment = "Tankside backup, sha256 " + new string('0', 64);
            var entry = zip.CreateEntry(dice.OneIn(10) ? "other.json" : "about.json");
            entry.LastWriteTime = new DateTimeOffset(2027, 2, 1, 0, 0, 0, TimeSpan.Zero);
            using var part = entry.Open();
            part.Write(about);
        }

        // Whoever makes a file on purpose can make its sum too.
        var bytes = stream.ToArray();
        Encoding.ASCII.GetBytes(Convert.ToHexStringLower(SHA256.HashData(bytes.AsSpan(0, bytes.Length - 64)))).CopyTo(bytes, bytes.Length - 64);
        return bytes;
    }

    private static string Read(byte[] bytes)
    {
        System.IO.File.WriteAllBytes(File, bytes);
        var opened = BackupFile.OpenAsync(File, null, CancellationToken.None).GetAwaiter().GetResult();
        Held.That(opened.About is null == opened.Refusal is not null, "It was neither opened nor refused.");
        _ = opened.About?.Words;
        return opened.Refusal?[Math.Min(opened.Refusal.Length, File.Length)..] ?? "opened";
    }
}
