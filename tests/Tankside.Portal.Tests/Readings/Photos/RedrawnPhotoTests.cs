using SkiaSharp;
using Tankside.Portal.Shell;

namespace Tankside.Portal.Tests.Readings.Photos;

/// <summary>What is left of a picture after it was drawn anew.</summary>
public class RedrawnPhotoTests
{
    private const byte JfifHead = 0xE0, Exif = 0xE1, Comment = 0xFE;

    [Fact]
    public void Where_a_picture_was_taken_and_by_whom_is_not_in_it_any_more()
    {
        var sent = CraftedPictures.WithPlace(400, 300);
        Assert.Contains(Exif, CraftedPictures.Markers(sent));
        Assert.Contains(Comment, CraftedPictures.Markers(sent));

        var drawn = Assert.IsType<RedrawnPhoto.Picture>(RedrawnPhoto.Of(sent));

        Assert.All(CraftedPictures.Markers(drawn.Jpeg), m => Assert.True(m == JfifHead || m is > 0xBF and < 0xE0, $"marker {m:X2} is left"));
        var text = System.Text.Encoding.Latin1.GetString(drawn.Jpeg);
        Assert.DoesNotContain("Exif", text, StringComparison.Ordinal);
        Assert.DoesNotContain("Ada", text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_camera_held_on_its_side_still_gives_an_upright_picture()
    {
        var drawn = Assert.IsType<RedrawnPhoto.Picture>(RedrawnPhoto.Of(CraftedPictures.WithPlace(400, 300)));

        Assert.Equal((300, 400), (drawn.Width, drawn.Height));
        using var dots = SKBitmap.Decode(drawn.Jpeg);
        // Turned a quarter to the right, the red left half is on top.
        Assert.True(dots.GetPixel(150, 50) is { Red: > 200, Blue: < 60 });
        Assert.True(dots.GetPixel(150, 350) is { Red: < 60, Blue: > 200 });
    }

    [Theory]
    [InlineData(SKEncodedImageFormat.Jpeg)]
    [InlineData(SKEncodedImageFormat.Png)]
    [InlineData(SKEncodedImageFormat.Webp)]
    public void What_phones_and_screens_write_becomes_a_JPEG_of_at_most_1600_dots(SKEncodedImageFormat format)
    {
        var drawn = Assert.IsType<RedrawnPhoto.Picture>(RedrawnPhoto.Of(CraftedPictures.Plain(4000, 2000, format)));

        Assert.Equal((1600, 800), (drawn.Width, drawn.Height));
        using var codec = SKCodec.Create(new MemoryStream(drawn.Jpeg));
        Assert.Equal((SKEncodedImageFormat.Jpeg, 1600, 800), (codec.EncodedFormat, codec.Info.Width, codec.Info.Height));
        using var dots = SKBitmap.Decode(drawn.Jpeg);
        Assert.True(dots.GetPixel(100, 400) is { Red: > 200, Blue: < 60 });
        Assert.True(dots.GetPixel(1500, 400) is { Red: < 60, Blue: > 200 });
    }

    [Fact]
    public void A_small_picture_is_not_blown_up()
    {
        var drawn = Assert.IsType<RedrawnPhoto.Picture>(RedrawnPhoto.Of(CraftedPictures.Plain(320, 200, SKEncodedImageFormat.Png)));

        Assert.Equal((320, 200), (drawn.Width, drawn.Height));
    }

    [Fact]
    public void A_file_that_claims_more_dots_than_fit_is_refused_by_its_head()
    {
        var refused = Assert.IsType<RedrawnPhoto.Refused>(RedrawnPhoto.Of(CraftedPictures.Bomb(30_000, 30_000)));

        Assert.Equal("This picture claims 30000 by 30000 dots; at most 50 million fit. Send a smaller one; nothing was stored.", refused.Why);
    }

    [Fact]
    public void The_same_file_with_a_modest_claim_is_only_damaged() =>
        Assert.Contains("damaged", Assert.IsType<RedrawnPhoto.Refused>(RedrawnPhoto.Of(CraftedPictures.Bomb(300, 300))).Why, StringComparison.Ordinal);

    [Fact]
    public void A_picture_that_broke_off_on_the_way_is_refused()
    {
        var whole = CraftedPictures.Plain(800, 600, SKEncodedImageFormat.Png);

        Assert.Contains("broke off", Assert.IsType<RedrawnPhoto.Refused>(RedrawnPhoto.Of(whole[..(whole.Length / 2)])).Why, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("")]
    [InlineData("%PDF-1.7 not a picture")]
    [InlineData("GIF89a\u0001\u0000\u0001\u0000\u0000\u0000\u0000")]
    [InlineData("<svg xmlns='http://www.w3.org/2000/svg'></svg>")]
    public void What_is_no_picture_is_refused_and_says_what_would_be(string text)
    {
        var refused = Assert.IsType<RedrawnPhoto.Refused>(RedrawnPhoto.Of(System.Text.Encoding.Latin1.GetBytes(text)));

        Assert.Contains("We expected a JPEG, PNG or WebP file; nothing was stored.", refused.Why, StringComparison.Ordinal);
    }
}
