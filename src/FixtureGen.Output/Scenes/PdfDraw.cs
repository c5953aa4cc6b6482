using FixtureGen.Model;
using SkiaSharp;

namespace FixtureGen.Output.Scenes;

/// <summary>
/// Scenes as pages of a PDF: vectors stay vectors and text stays text. The file has no date of its own (ISO 32000-1, 14.3.3: it need have none), for the library writes any
/// with the machine's own time zone, and the same pages are the same bytes everywhere.
/// </summary>
internal static class PdfDraw
{
    private const double PointsPerMm = 72 / Units.MmPerInch;

    public static byte[] Pdf(IReadOnlyList<Scene> pages, string title)
    {
        using MemoryStream stream = new();
        SKDocumentPdfMetadata about = new()
        {
            Title = title,
            Creator = "FixtureGen",
            RasterDpi = 300,
            EncodingQuality = 101,
        };
        using (SKDocument document = SKDocument.CreatePdf(stream, about))
        {
            foreach (Scene page in pages)
            {
                SKCanvas canvas = document.BeginPage(
                    (float)(page.Width * PointsPerMm),
                    (float)(page.Height * PointsPerMm)
                );
                new SkiaDraw(canvas, page.Height, PointsPerMm, textStaysText: true).Draw(page);
                document.EndPage();
            }
            document.Close();
        }
        return stream.ToArray();
    }
}
