using FixtureGen.Model;
using SkiaSharp;

namespace FixtureGen.Output.Scenes;

/// <summary>Scenes as pages of a PDF: vectors stay vectors and text stays text. The date in the file is fixed, so that the same pages are the same bytes.</summary>
internal static class PdfDraw
{
    private const double PointsPerMm = 72 / Units.MmPerInch;
    private static readonly DateTime Date = new(2000, 1, 1, 0, 0, 0, DateTimeKind.Utc);

    public static byte[] Pdf(IReadOnlyList<Scene> pages, string title)
    {
        using MemoryStream stream = new();
        SKDocumentPdfMetadata about = new()
        {
            Title = title,
            Creator = "FixtureGen",
            Creation = Date,
            Modified = Date,
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
                new SkiaDraw(canvas, page.Height, PointsPerMm).Draw(page);
                document.EndPage();
            }
            document.Close();
        }
        return stream.ToArray();
    }
}
