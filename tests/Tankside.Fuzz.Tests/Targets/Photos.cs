using SkiaSharp;
using Tankside.Portal.Shell;

namespace Tankside.Fuzz.Tests.Targets;

/// <summary>Pictures: whatever is sent is refused, or drawn anew no larger than we draw.</summary>
public static class Photos
{
    public static Target Target { get; } = new("photos", Make, Read) { Words = ["\u0089PNG\r\n\u001a\n", "IHDR", "IDAT", "IEND", "RIFF", "WEBPVP8 ", "Exif\0\0", "JFIF\0"], LongestInput = 200_000, MostBytesOnce = 32 << 20 };

    private static byte[] Make(Dice dice)
    {
        using var dots = new SKBitmap(dice.Between(1, 60), dice.Between(1, 60));
        dots.Erase(new SKColor((uint)dice.Below(int.MaxValue)));
        using var image = SKImage.FromBitmap(dots);
        using var data = image.Encode(dice.Of([SKEncodedImageFormat.Jpeg, SKEncodedImageFormat.Png, SKEncodedImageFormat.Webp]), 80);
        return data.ToArray();
    }

    private static string Read(byte[] bytes)
    {
        switch (RedrawnPhoto.Of(bytes))
        {
            case RedrawnPhoto.Picture picture:
                Held.That(picture is { Width: >= 1 and <= RedrawnPhoto.LongestSide, Height: >= 1 and <= RedrawnPhoto.LongestSide }, "A picture is larger than we draw.");
                Held.That(RedrawnPhoto.Of(picture.Jpeg) is RedrawnPhoto.Picture again && (again.Width, again.Height) == (picture.Width, picture.Height), "What was drawn is no picture of that size.");
                return "drawn";
            case RedrawnPhoto.Refused refused:
                Held.Said([refused.Why]);
                return refused.Why;
            default:
                throw new BrokenException("Neither drawn nor refused.");
        }
    }
}
