using PdfSharp.Pdf;
using PdfSharp.Pdf.IO;

namespace Tankside.Portal.Shell.Paper;

/// <summary>What became of a PDF that was sent.</summary>
public abstract record RewrittenPdf
{
    public sealed record Sheets(byte[] Pdf, int Pages) : RewrittenPdf;

    public sealed record Refused(string Why) : RewrittenPdf;

    /// <summary>An agency's paper has a few pages (no source).</summary>
    public const int MostPages = 60;

    public const int MostBytes = 12 * 1024 * 1024;

    /// <summary>
    /// Carries the pages over into a new file. Scripts, attached files, forms' actions and links stay behind: only what is drawn on a page
    /// comes along. A file that unpacks to very much or nests very deep ends the process that does this: see <see cref="RewrittenApart"/>.
    /// </summary>
    public static RewrittenPdf Of(byte[] sent)
    {
        try
        {
            using var stream = new MemoryStream(sent);
            using var from = PdfReader.Open(stream, PdfDocumentOpenMode.Import);
            if (from.PageCount is 0 or > MostPages)
            {
                return new Refused($"This PDF has {from.PageCount} pages; 1 to {MostPages} fit. Nothing was stored.");
            }

            using var to = new PdfDocument();
            foreach (var page in from.Pages)
            {
                var kept = to.AddPage(page);
                kept.Elements.Remove("/AA");
                kept.Elements.Remove("/Annots");
            }

            var pages = to.PageCount; // Not to be asked for once it is saved.
            using var written = new MemoryStream();
            to.Save(written, closeStream: false);
            return new Sheets(written.ToArray(), pages);
        }
        catch (Exception e) when (e is not OutOfMemoryException)
        {
            // The reader throws whatever it stumbles over: a damaged file, one under a password, something else with its name.
            return new Refused("This PDF can't be read: it may be damaged or locked with a password. We expected a PDF, or a picture of the paper; nothing was stored.");
        }
    }
}
