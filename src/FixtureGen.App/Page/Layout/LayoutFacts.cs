using System.Globalization;
using System.Runtime.InteropServices;
using System.Security.Cryptography;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.App.Page.Layout;

/// <summary>Designs and holding answers as the page reads them; lengths mm in the plate frame.</summary>
internal static class LayoutFacts
{
    /// <summary>For each cut x, y, load (N) of every step, and the key of it all.</summary>
    public static (string Key, CutValues[] Cuts) Trace(HoldingResult h) =>
        (
            Key([.. h.Samples.SelectMany(s => new[] { s.At.X, s.At.Y, s.LoadN })]),
            [.. Cuts(h).Select(cut => new CutValues(cut[0].Cut, Threes(cut, s => (s.At.X, s.At.Y, s.LoadN))))]
        );

    /// <summary>For each cut the factors vacuum, stopping, both of every step.</summary>
    public static CutValues[] Path(HoldingResult h) =>
        [.. Cuts(h).Select(cut => new CutValues(null, Threes(cut, s => (s.VacuumOnly, s.MagnetsStopping, s.Both))))];

    private static IEnumerable<HoldSample[]> Cuts(HoldingResult h) =>
        h.Samples.GroupBy(s => s.Cut).Select(g => g.ToArray());

    private static double[] Threes(HoldSample[] cut, Func<HoldSample, (double, double, double)> three)
    {
        double[] values = new double[3 * cut.Length];
        for (int i = 0; i < cut.Length; i++)
        {
            (double a, double b, double c) = three(cut[i]);
            values[3 * i] = Math.Round(a, 3);
            values[(3 * i) + 1] = Math.Round(b, 3);
            values[(3 * i) + 2] = Math.Round(c, 3);
        }
        return values;
    }

    public static double[] Shares(HoldingResult h) => [.. h.MagnetShareN.Select(n => Math.Round(n, 3))];

    /// <summary>Where the part lies.</summary>
    public static PagePlacement Placed(FixtureDesign design) => Placed(design.Placement.Pose);

    /// <summary>A pose as the page has it.</summary>
    public static PagePlacement Placed(Pose pose) =>
        new()
        {
            X = Math.Round(pose.X, 4),
            Y = Math.Round(pose.Y, 4),
            AngleDeg = Math.Round(pose.AngleDeg, 4),
        };

    /// <summary>The middle of the part's box.</summary>
    public static double[] Middle(FixtureDesign design)
    {
        Box2 box = Measure.Bounds(design.Part.Outer);
        return [Math.Round(box.Middle.X, 3), Math.Round(box.Middle.Y, 3)];
    }

    public static MagnetSizes Sizes(Job job) => new(job.Magnet.Diameter, job.Magnet.JacketDiameter);

    public static PageMagnet[] Magnets(IEnumerable<MagnetPlace> magnets) =>
        [
            .. magnets.Select(m => new PageMagnet
            {
                X = m.At.X,
                Y = m.At.Y,
                Locked = m.Locked,
                Drawn = m.FromDrawing,
            }),
        ];

    /// <summary>Where each zone's air leaves, and into what.</summary>
    public static FedZone[] Fed(FixtureDesign design) =>
        [
            .. design.Zones.Select(z => new FedZone(
                z.Index + 1,
                Math.Round(z.PortAt.X, 3),
                Math.Round(z.PortAt.Y, 3),
                z.Feeds
            )),
        ];

    public static string Amount(double mm, Job job) =>
        job.DisplayUnit == LengthUnit.Inch
            ? string.Create(CultureInfo.InvariantCulture, $"{mm / Units.MmPerInch:0.000} in")
            : string.Create(CultureInfo.InvariantCulture, $"{mm:0.00} mm");

    /// <summary>Equal for equal numbers only, bit for bit.</summary>
    public static string Key(double[] numbers) =>
        Convert.ToHexStringLower(SHA256.HashData(MemoryMarshal.AsBytes(numbers.AsSpan())).AsSpan(0, 12));

    public static double[] Point(Point2 p) => [p.X, p.Y];
}
