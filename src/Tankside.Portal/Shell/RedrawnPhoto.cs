using SkiaSharp;

namespace Tankside.Portal.Shell;

/// <summary>What became of a picture that was sent.</summary>
public abstract record RedrawnPhoto
{
    /// <summary>Drawn anew as JPEG: the picture upright and nothing besides.</summary>
    public sealed record Picture(byte[] Jpeg, int Width, int Height) : RedrawnPhoto;

    public sealed record Refused(string Why) : RedrawnPhoto;

    /// <summary>More is not seen on any screen of a school (no source).</summary>
    public const int LongestSide = 1600;

    /// <summary>A phone takes 12 to 50 million; a file that claims more is meant to fill the memory.</summary>
    public const long MostPixels = 50_000_000;

    /// <summary>What a phone's camera writes, with room to spare.</summary>
    public const int MostBytes = 12 * 1024 * 1024;

    private const int Quality = 85;

    /// <summary>Unpacked, a picture takes up to 200 MB; several at once could take all there is.</summary>
    private static readonly SemaphoreSlim OneAtATime = new(1);

    /// <summary>The same for a file that came with a form; one at a time is unpacked.</summary>
    public static async Task<RedrawnPhoto> OfAsync(IFormFile file, CancellationToken cancel)
    {
        using var bytes = new MemoryStream((int)file.Length);
        await file.CopyToAsync(bytes, cancel);
        await OneAtATime.WaitAsync(cancel);
        try
        {
            return await Task.Run(() => Of(bytes.ToArray()), cancel);
        }
        finally
        {
            OneAtATime.Release();
        }
    }

    /// <summary>
    /// Reads a picture and draws it anew. Where and when it was taken, with what, and whatever else was packed into the file stays behind,
    /// because only dots are carried over.
    /// </summary>
    public static RedrawnPhoto Of(byte[] sent)
    {
        using var data = SKData.CreateCopy(sent);
        using var codec = SKCodec.Create(data);
        if (codec is not { EncodedFormat: SKEncodedImageFormat.Jpeg or SKEncodedImageFormat.Png or SKEncodedImageFormat.Webp })
        {
            return new Refused("This is not a picture that we can read. We expected a JPEG, PNG or WebP file; nothing was stored.");
        }

        // The size stands in the head of the file: it is looked at before a single dot is unpacked.
        if (codec.Info.Width < 1 || codec.Info.Height < 1 || (long)codec.Info.Width * codec.Info.Height > MostPixels)
        {
            return new Refused($"This picture claims {codec.Info.Width} by {codec.Info.Height} dots; at most {MostPixels / 1_000_000} million fit. Send a smaller one; nothing was stored.");
        }

        using var dots = Unpack(codec);
        return dots is null
            ? new Refused("This picture is damaged or broke off on the way. Send it again; nothing was stored.")
            : Draw(dots, codec.EncodedOrigin);
    }

    /// <summary>Null when the file ends before the picture does.</summary>
    private static SKBitmap? Unpack(SKCodec codec)
    {
        // A JPEG can be unpacked smaller at once; half as large again as needed keeps it sharp.
        var size = codec.GetScaledDimensions(Math.Min(1f, 1.5f * LongestSide / Math.Max(codec.Info.Width, codec.Info.Height)));
        var info = new SKImageInfo(size.Width, size.Height, SKColorType.Rgba8888, SKAlphaType.Premul, SKColorSpace.CreateSrgb());
        var dots = new SKBitmap(info);
        if (codec.GetPixels(info, dots.GetPixels()) == SKCodecResult.Success)
        {
            return dots;
        }

        dots.Dispose();
        return null;
    }

    private static Picture Draw(SKBitmap dots, SKEncodedOrigin origin)
    {
        var (wide, high) = LiesOnItsSide(origin) ? (dots.Height, dots.Width) : (dots.Width, dots.Height);
        var scale = Math.Min(1.0, (double)LongestSide / Math.Max(wide, high));
        var (width, height) = (Math.Max(1, (int)Math.Round(wide * scale)), Math.Max(1, (int)Math.Round(high * scale)));
        // Without a colour space of its own, so that no profile goes into the file.
        using var drawn = new SKBitmap(new SKImageInfo(width, height, SKColorType.Rgba8888, SKAlphaType.Opaque));
        using (var canvas = new SKCanvas(drawn))
        using (var image = SKImage.FromBitmap(dots))
        {
            canvas.Clear(SKColors.White);
            canvas.Scale((float)width / wide, (float)height / high);
            canvas.Concat(Upright(origin, wide, high));
            canvas.DrawImage(image, 0, 0, new SKSamplingOptions(SKFilterMode.Linear, SKMipmapMode.Linear));
        }

        using var whole = SKImage.FromBitmap(drawn);
        using var jpeg = whole.Encode(SKEncodedImageFormat.Jpeg, Quality);
        return new Picture(jpeg.ToArray(), width, height);
    }

    private static bool LiesOnItsSide(SKEncodedOrigin origin) =>
        origin is SKEncodedOrigin.LeftTop or SKEncodedOrigin.RightTop or SKEncodedOrigin.RightBottom or SKEncodedOrigin.LeftBottom;

    /// <summary>Turns a picture as its camera was held, by the eight ways that Exif knows.</summary>
    private static SKMatrix Upright(SKEncodedOrigin origin, float width, float height) => origin switch
    {
        SKEncodedOrigin.TopRight => new(-1, 0, width, 0, 1, 0, 0, 0, 1),
        SKEncodedOrigin.BottomRight => new(-1, 0, width, 0, -1, height, 0, 0, 1),
        SKEncodedOrigin.BottomLeft => new(1, 0, 0, 0, -1, height, 0, 0, 1),
        SKEncodedOrigin.LeftTop => new(0, 1, 0, 1, 0, 0, 0, 0, 1),
        SKEncodedOrigin.RightTop => new(0, -1, width, 1, 0, 0, 0, 0, 1),
        SKEncodedOrigin.RightBottom => new(0, -1, width, -1, 0, height, 0, 0, 1),
        SKEncodedOrigin.LeftBottom => new(0, 1, 0, -1, 0, height, 0, 0, 1),
        _ => SKMatrix.Identity,
    };
}
