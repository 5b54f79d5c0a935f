using System.IO.Compression;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace Tankside.Portal.Commands.Backups;

/// <summary>A backup as it was opened, or why it was not.</summary>
public sealed record OpenedBackup(BackupAbout? About, string? Refusal);

/// <summary>
/// One file that any ZIP program opens: the database, and about.json with the sum of each part. Its comment holds the SHA-256 of everything
/// before, so that a single wrong bit anywhere, or a missing end, is found before anything is done with it.
/// </summary>
public static class BackupFile
{
    private const string Mark = "Tankside backup, sha256 ", AboutName = "about.json";
    private const int SumLength = 64;

    private static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web) { WriteIndented = true, Converters = { new JsonStringEnumConverter() } };

    /// <summary>Only the owner may read what a backup holds.</summary>
    public static FileStream CreateForOwner(string file) => new(file, OperatingSystem.IsWindows()
        ? new FileStreamOptions { Mode = FileMode.Create, Access = FileAccess.ReadWrite }
        : new FileStreamOptions { Mode = FileMode.Create, Access = FileAccess.ReadWrite, UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite });

    /// <summary>Writes the parts, what they are, and the sum of it all, down to the disk.</summary>
    public static async Task WriteAsync(string file, Func<ZipArchive, Task<BackupAbout>> fill, CancellationToken cancel)
    {
        await using var stream = CreateForOwner(file);
        await using (var zip = await ZipArchive.CreateAsync(stream, ZipArchiveMode.Create, leaveOpen: true, entryNameEncoding: null, cancel))
        {
            zip.Comment = Mark + new string('0', SumLength);
            var about = await fill(zip);
            await using var entry = await zip.CreateEntry(AboutName).OpenAsync(cancel);
            await JsonSerializer.SerializeAsync(entry, about, Json, cancel);
        }

        var sum = await SumOfAllButTheEndAsync(stream, null, cancel);
        await stream.WriteAsync(Encoding.ASCII.GetBytes(sum), cancel);
        await stream.FlushAsync(cancel);
        stream.Flush(flushToDisk: true);
    }

    /// <summary>Adds a part and gives the sum of what went in.</summary>
    public static async Task<BackedUpPart> AddAsync(ZipArchive zip, string name, Func<Stream, Task> write, CancellationToken cancel)
    {
        using var sum = SHA256.Create();
        await using var entry = await zip.CreateEntry(name, CompressionLevel.Fastest).OpenAsync(cancel);
        await using (var summed = new CryptoStream(entry, sum, CryptoStreamMode.Write, leaveOpen: true))
        {
            await write(summed);
        }

        return new BackedUpPart(name, Convert.ToHexStringLower(sum.Hash!));
    }

    /// <summary>Reads all of it: the sum of the whole first, then what it says of itself.</summary>
    public static async Task<OpenedBackup> OpenAsync(string file, Action<int, int>? tell, CancellationToken cancel)
    {
        if (!File.Exists(file))
        {
            return new OpenedBackup(null, $"There is no file {file}.");
        }

        await using var stream = File.OpenRead(file);
        if (await MarkOfAsync(stream, cancel) is not { } sum)
        {
            return new OpenedBackup(null, $"{file} is no backup of this program, or its end is missing.");
        }

        if (!string.Equals(sum, await SumOfAllButTheEndAsync(stream, tell, cancel), StringComparison.Ordinal))
        {
            return new OpenedBackup(null, $"{file} is damaged: its content is not what was written. Take another copy, or an earlier backup.");
        }

        BackupAbout about;
        try
        {
            about = await ReadAboutAsync(stream, cancel);
        }
        catch (Exception e) when (e is InvalidDataException or JsonException)
        {
            return new OpenedBackup(null, $"{file} is whole, but what it says of itself cannot be read. It was not written by this program.");
        }

        return about.Format > BackupAbout.NewestFormat
            ? new OpenedBackup(null, $"{file} was written by a newer program ({about.Program}); this is {BackupAbout.ThisProgram}. Restore it with that one.")
            : new OpenedBackup(about, null);
    }

    /// <summary>What a file says of itself, without reading all of it; null when it is no backup.</summary>
    public static async Task<BackupAbout?> AboutAsync(string file, CancellationToken cancel)
    {
        try
        {
            await using var stream = File.OpenRead(file);
            return await MarkOfAsync(stream, cancel) is null ? null : await ReadAboutAsync(stream, cancel);
        }
        catch (Exception e) when (e is InvalidDataException or JsonException or IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }

    /// <summary>Hands out the content of a part, and throws when it is not what its sum says.</summary>
    public static async Task ReadPartAsync(string file, BackedUpPart part, Func<Stream, Task> read, CancellationToken cancel)
    {
        await using var zip = await ZipFile.OpenReadAsync(file, cancel);
        var entry = zip.GetEntry(part.Name) ?? throw new InvalidDataException($"{part.Name} is missing in {file}.");
        using var sum = SHA256.Create();
        await using var content = await entry.OpenAsync(cancel);
        await using (var summed = new CryptoStream(content, sum, CryptoStreamMode.Read, leaveOpen: true))
        {
            await read(summed);
            await summed.CopyToAsync(Stream.Null, cancel);
        }

        if (Convert.ToHexStringLower(sum.Hash!) != part.Sha256)
        {
            throw new InvalidDataException($"{part.Name} in {file} is not what was written.");
        }
    }

    private static async Task<BackupAbout> ReadAboutAsync(Stream stream, CancellationToken cancel)
    {
        stream.Position = 0;
        await using var zip = await ZipArchive.CreateAsync(stream, ZipArchiveMode.Read, leaveOpen: true, entryNameEncoding: null, cancel);
        await using var entry = await (zip.GetEntry(AboutName) ?? throw new InvalidDataException($"{AboutName} is missing.")).OpenAsync(cancel);
        return await JsonSerializer.DeserializeAsync<BackupAbout>(entry, Json, cancel) is { Program: not null, Schema: not null, Tables: { } tables, Parts: { } parts } about
            && tables.All(t => t is { Name: not null, Columns: not null }) && parts.All(p => p is { Name: not null, Sha256: not null })
            ? about
            : throw new InvalidDataException($"{AboutName} is not whole.");
    }

    /// <summary>The sum that the end of the file names; null when it ends otherwise.</summary>
    private static async Task<string?> MarkOfAsync(FileStream stream, CancellationToken cancel)
    {
        var end = new byte[Mark.Length + SumLength];
        if (stream.Length < end.Length)
        {
            return null;
        }

        stream.Position = stream.Length - end.Length;
        await stream.ReadExactlyAsync(end, cancel);
        var text = Encoding.ASCII.GetString(end);
        return text.StartsWith(Mark, StringComparison.Ordinal) ? text[Mark.Length..] : null;
    }

    private static async Task<string> SumOfAllButTheEndAsync(FileStream stream, Action<int, int>? tell, CancellationToken cancel)
    {
        const int Megabyte = 1 << 20;
        using var sum = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        var (buffer, length) = (new byte[Megabyte], stream.Length - SumLength);
        stream.Position = 0;
        while (stream.Position < length)
        {
            var part = buffer.AsMemory(0, (int)Math.Min(buffer.Length, length - stream.Position));
            await stream.ReadExactlyAsync(part, cancel);
            sum.AppendData(part.Span);
            tell?.Invoke((int)(stream.Position / Megabyte), (int)(length / Megabyte));
        }

        return Convert.ToHexStringLower(sum.GetHashAndReset());
    }
}
