using System.IO.Compression;
using System.Net;
using System.Text;
using Microsoft.AspNetCore.Http;
using Microsoft.EntityFrameworkCore;
using PdfSharp.Drawing;
using PdfSharp.Pdf;
using PdfSharp.Pdf.IO;
using SkiaSharp;
using Tankside.Hatchery.People;
using Tankside.Hatchery.Releases;
using Tankside.Portal.Accounts;
using Tankside.Portal.Releases.Permits;
using Tankside.Portal.Shell.Paper;
using Tankside.Portal.Tests.Readings.Photos;
using Tankside.Portal.Tests.Shell;
using Tankside.Storage;
using Tankside.Testing;

namespace Tankside.Portal.Tests.Releases;

/// <summary>The agency's paper kept beside the permit: only its pages, once, and taken away for good.</summary>
public class PermitPaperTests
{
    [Theory, BothDatabases]
    public async Task A_paper_is_written_anew_kept_once_and_emptied_when_it_is_taken_away(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        var (lead, permit) = (await host.ClientAs(Role.ProgrammeLead, world.One), world.One.Permit.Id);
        var form = new PermitPaperForm { Id = Guid.NewGuid(), File = File(PaperWithScript()), Note = "with the letter" };

        var (first, again) = (await AddAsync(host, world.One, form), await AddAsync(host, world.One, form));

        Assert.All([first, again], said => Assert.Contains("The paper is kept, 1 page.", said, StringComparison.Ordinal));
        var here = $"/releases/permits/{permit}/papers";
        Assert.Contains("with the letter", await lead.ReadAsync(here), StringComparison.Ordinal);
        await using var db = host.OpenDb();
        var paper = await db.PermitPapers.AsNoTracking().SingleAsync();
        Assert.Equal((PaperKind.Pdf, 1, world.One.People[Role.ProgrammeLead].Id), (paper.Kind, paper.Pages, paper.SentBy));
        using var answer = await lead.GetAsync($"{here}/{paper.Id}");
        Assert.Equal("attachment", answer.Content.Headers.ContentDisposition!.DispositionType);
        Assert.Contains("Permit", PrintedPdf.Read(await answer.Content.ReadAsByteArrayAsync()).Text, StringComparison.Ordinal);

        await lead.PostFormAsync(here, new Dictionary<string, string> { ["Removed"] = $"{paper.Id}" }, "take-away");
        Assert.Equal(HttpStatusCode.NotFound, (await lead.GetAsync($"{here}/{paper.Id}")).StatusCode);
        Assert.Empty((await db.PermitPapers.AsNoTracking().SingleAsync()).Content);
    }

    [Fact]
    public void Scripts_and_links_of_a_file_stay_behind()
    {
        var sent = PaperWithScript();
        Assert.Contains("app.alert", Encoding.Latin1.GetString(sent), StringComparison.Ordinal);

        var kept = Assert.IsType<RewrittenPdf.Sheets>(RewrittenPdf.Of(sent)).Pdf;

        Assert.All(["app.alert", "JavaScript", "elsewhere.example", "/OpenAction"], bad => Assert.DoesNotContain(bad, Encoding.Latin1.GetString(kept), StringComparison.Ordinal));
    }

    [Theory, BothDatabases]
    public async Task What_is_no_paper_or_another_programmes_is_refused_and_nothing_is_stored(DatabaseKind kind)
    {
        var (host, world) = await PortalHost.CreateWithWorldAsync(kind);
        await using var _ = host;
        (byte[] Bytes, string Why)[] wrong =
        [
            ([], "Choose a file"),
            ("GIF89a"u8.ToArray(), "We expected a PDF"),
            ("%PDF-1.7 and then nothing of the kind"u8.ToArray(), "can't be read"),
            (PaperWithScript()[..200], "can't be read"),
            (Pages(RewrittenPdf.MostPages + 1), "has 61 pages"),
            (NestedDeep(), "too much to read"),
            (UnpackingToMuch(), "too much to read"),
        ];

        foreach (var (bytes, why) in wrong)
        {
            Assert.Contains(why, await AddAsync(host, world.One, new PermitPaperForm { Id = Guid.NewGuid(), File = File(bytes) }), StringComparison.Ordinal);
        }

        var good = new PermitPaperForm { Id = Guid.NewGuid(), File = File(CraftedPictures.Plain(40, 30, SKEncodedImageFormat.Png)) };
        Assert.Contains("There is no such permit", await AddAsync(host, world.One, good, world.Two.Permit.Id), StringComparison.Ordinal);
        await using var db = host.OpenDb();
        Assert.False(await db.PermitPapers.AnyAsync());
        Assert.Contains("The picture of the paper is kept.", await AddAsync(host, world.One, good), StringComparison.Ordinal);
    }

    private static async Task<string> AddAsync(PortalHost host, TestProgramme one, PermitPaperForm form, Guid? permit = null)
    {
        var (lead, said) = (one.People[Role.ProgrammeLead], "");
        var user = new CurrentUser(lead.Id, one.Programme.Id, Role.ProgrammeLead, null);
        var notice = await host.CallAsync<PermitPapers, Notice?>(p => p.AddAsync(user, permit ?? one.Permit.Id, form, (_, why) => said = why, CancellationToken.None));
        return notice?.Text ?? said;
    }

    private static FormFile File(byte[] bytes) => new(new MemoryStream(bytes), 0, bytes.Length, "Input.File", "permit.pdf");

    /// <summary>Arrays in arrays, more than any stack holds.</summary>
    private static byte[] NestedDeep()
    {
        const int Deep = 300_000;
        return Crafted(Encoding.Latin1.GetBytes($"<</Type/Catalog/Pages 2 0 R/Deep {new string('[', Deep)}{new string(']', Deep)}>>"), "<</Type/Pages/Kids[]/Count 0>>"u8.ToArray());
    }

    /// <summary>A list of objects that is half a megabyte long and unpacks to half a gigabyte.</summary>
    private static byte[] UnpackingToMuch()
    {
        using var packed = new MemoryStream();
        using (var zlib = new ZLibStream(packed, CompressionLevel.Fastest, leaveOpen: true))
        {
            var nothing = new byte[1 << 20];
            for (var megabyte = 0; megabyte < 512; megabyte++)
            {
                zlib.Write(nothing);
            }
        }

        var head = Encoding.Latin1.GetBytes($"%PDF-1.5\n1 0 obj\n<</Type/XRef/W[1 2 1]/Size 3/Root 2 0 R/Filter/FlateDecode/Length {packed.Length}>>\nstream\n");
        return [.. head, .. packed.ToArray(), .. "\nendstream\nendobj\nstartxref\n9\n%%EOF\n"u8];
    }

    /// <summary>A file of these objects, the first of them the catalogue.</summary>
    private static byte[] Crafted(params byte[][] objects)
    {
        using var file = new MemoryStream();
        file.Write("%PDF-1.4\n"u8);
        var at = new List<long>();
        foreach (var (number, body) in objects.Index())
        {
            at.Add(file.Position);
            file.Write([.. Encoding.Latin1.GetBytes($"{number + 1} 0 obj\n"), .. body, .. "\nendobj\n"u8]);
        }

        var table = file.Position;
        var lines = string.Concat(at.Select(a => $"{a:0000000000} 00000 n \n"));
        file.Write(Encoding.Latin1.GetBytes($"xref\n0 {at.Count + 1}\n0000000000 65535 f \n{lines}trailer\n<</Size {at.Count + 1}/Root 1 0 R>>\nstartxref\n{table}\n%%EOF\n"));
        return file.ToArray();
    }

    private static byte[] PaperWithScript()
    {
        using var pages = new MemoryStream(PaperDocument.Write("Permit", "en", DateTime.UnixEpoch, d => d.Page(PaperSize.Letter, p => p.Text("Permit 7", new Box(20, 20, 100, 10), 12))));
        using var document = PdfReader.Open(pages, PdfDocumentOpenMode.Modify);
        var script = new PdfDictionary(document);
        script.Elements.SetName("/S", "/JavaScript");
        script.Elements.SetString("/JS", "app.alert(1)");
        document.Internals.AddObject(script);
        document.Internals.Catalog.Elements.SetReference("/OpenAction", script.Reference!);
        document.Pages[0].AddWebLink(new PdfRectangle(new XRect(10, 10, 50, 20)), "https://elsewhere.example/");
        using var written = new MemoryStream();
        document.Save(written, closeStream: false);
        return written.ToArray();
    }

    private static byte[] Pages(int count)
    {
        using var document = new PdfDocument();
        for (var i = 0; i < count; i++)
        {
            document.AddPage();
        }

        using var written = new MemoryStream();
        document.Save(written, closeStream: false);
        return written.ToArray();
    }
}
