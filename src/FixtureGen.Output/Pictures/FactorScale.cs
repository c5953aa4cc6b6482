using System.Globalization;
using FixtureGen.Model;
using FixtureGen.Output.Scenes;

namespace FixtureGen.Output.Pictures;

/// <summary>
/// The bands in which holding factors are drawn. Weaker is darker and wider, so that a grey print still says where; the
/// band ends include both house limits' usual values, 1 and 2.
/// </summary>
internal static class FactorScale
{
    private static readonly double[] Ends = [1, 1.5, 2, 3, 5];
    private static readonly Colour[] Colours =
    [
        Colour.FromRgb(0x3A0509),
        Colour.FromRgb(0x8E1B12),
        Colour.FromRgb(0xCB5420),
        Colour.FromRgb(0xE59B43),
        Colour.FromRgb(0xEBD08A),
        Colour.FromRgb(0xE6F0E0),
    ];
    private static readonly double[] Widths = [4.2, 3.6, 3.0, 2.4, 1.8, 1.3];

    /// <summary>Band of a factor: 0 is the weakest.</summary>
    public static int Band(double factor)
    {
        int band = 0;
        while (band < Ends.Length && factor >= Ends[band])
        {
            band++;
        }
        return band;
    }

    public static int Bands => Colours.Length;

    public static Colour ColourOf(int band) => Colours[band];

    /// <summary>A factor as printed: two figures, rounded down, and 999 is "more than can matter".</summary>
    public static string Text(double factor) => factor >= 999 ? "over 999" : FactorText.Two(factor);

    /// <summary>Strokes one run of the path in its band's colour and width, with a dark rim that keeps light bands visible on white.</summary>
    public static void Stroke(Scene scene, Chain run, int band, double k)
    {
        scene.Shape(run, Pen.Solid((Widths[band] + 0.5) * k, Colour.Black));
        scene.Shape(run, Pen.Solid(Widths[band] * k, Colours[band]));
    }

    /// <summary>The scale as a row of bands with their limits underneath, <paramref name="at"/> its lower left corner.</summary>
    public static void Draw(Scene scene, Point2 at, double size)
    {
        const double step = 26;
        double y = at.Y + (size * 1.6);
        for (int i = 0; i < Colours.Length; i++)
        {
            double x = at.X + (i * step);
            Stroke(scene, Chain.Line(new Point2(x + 3, y + 2), new Point2(x + step - 3, y + 2)), i, 1);
            string name =
                i == 0 ? "under 1"
                : i == Ends.Length ? $"{N(Ends[i - 1])} and over"
                : $"{N(Ends[i - 1])} to {N(Ends[i])}";
            scene.Text(name, new Point2(x + (step / 2), at.Y), TypeStyle.Plain(size), Anchor.Middle);
        }
    }

    private static string N(double v) => v.ToString("0.#", CultureInfo.InvariantCulture);
}
