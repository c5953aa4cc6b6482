using System.Collections;
using FixtureGen.Model;
using FixtureGen.Output.Reports;
using FixtureGen.Output.Scenes;
using QRCoder;

namespace FixtureGen.Output.Pictures;

/// <summary>A QR code (ISO/IEC 18004) as black squares, with the quiet zone of four modules the standard asks for.</summary>
internal static class QrMark
{
    /// <summary>What the code says: job and revision, in plain words a scanner shows as they are.</summary>
    public static string Words(Job job) => $"{job.Name} {job.FixtureId} rev {Figures.Whole(job.Revision)}";

    /// <summary>Draws <paramref name="words"/> into the square <paramref name="box"/>, quiet zone included; level M recovers 15 % of damage.</summary>
    public static void Draw(Scene scene, string words, Box2 box)
    {
        using QRCodeGenerator generator = new();
        using QRCodeData code = generator.CreateQrCode(words, QRCodeGenerator.ECCLevel.M, forceUtf8: true);
        double module = box.Width / code.ModuleMatrix.Count;
        List<Chain> dark = [];
        for (int row = 0; row < code.ModuleMatrix.Count; row++)
        {
            dark.AddRange(Runs(code.ModuleMatrix[row], row, module, new Point2(box.MinX, box.MaxY)));
        }
        scene.Shape(Chain.Box(box), null, Colour.White);
        scene.Shape(dark, null, Colour.Black);
    }

    /// <summary>Dark modules of a row that touch are one box, so that no hairline shows between them.</summary>
    private static IEnumerable<Chain> Runs(BitArray row, int down, double module, Point2 corner)
    {
        int from = 0;
        for (int i = 0; i <= row.Count; i++)
        {
            bool dark = i < row.Count && row[i];
            if (!dark)
            {
                if (i > from)
                {
                    double top = corner.Y - (down * module);
                    yield return Chain.Box(
                        new Box2(corner.X + (from * module), top - module, corner.X + (i * module), top)
                    );
                }
                from = i + 1;
            }
        }
    }
}
