using BenchmarkDotNet.Attributes;
using FixtureGen.Model;
using FixtureGen.Verify;
using FixtureGen.Verify.Carving;

namespace FixtureGen.Bench;

/// <summary>
/// Ten metres of path with a 6.35 mm end mill on 216 x 216 mm at 0.1 mm cells, one core. Wanted: at most 1 ms on long flat moves (10 km
/// of path a second) and 15 ms on faceted rings; the same rings as arcs stand beside them.
/// </summary>
[MemoryDiagnoser]
public class JudgeBench
{
    private const double Metres = 10_000;
    private readonly BlockGrid _grid = new(new Box2(0, 0, 216, 216), 0.1, 0, 20);
    private readonly Cutter _cutter = new(null!, CutterShape.Flat, 3.175, 0, 0);
    private Motion[] _long = [];
    private Motion[] _rings = [];
    private Motion[] _arcs = [];
    private Motion[] _ramps = [];

    [GlobalSetup]
    public void Prepare()
    {
        _long = [.. Enumerable.Range(0, 50).Select(i => Line(8, 6 + (4 * i), 208, 7.7 + (4 * i), 18, 18))];
        _ramps = [.. Enumerable.Range(0, 50).Select(i => Line(8, 6 + (4 * i), 208, 7.7 + (4 * i), 20, 17))];
        _rings = [.. Rings((r, at) => Enumerable.Range(0, at).SelectMany(k => Chord(r, k, at)))];
        _arcs = [.. Rings((r, _) => Enumerable.Range(0, 2).Select(k => Arc(r, k)))];
    }

    [Benchmark]
    public double LongFlatMoves() => Carve(_long);

    [Benchmark]
    public double FacetedRings() => Carve(_rings);

    [Benchmark]
    public double RingsAsArcs() => Carve(_arcs);

    [Benchmark]
    public double Ramps() => Carve(_ramps);

    private double Carve(Motion[] motions)
    {
        Carver carver = new(_grid);
        double removed = 0;
        foreach (Motion motion in motions)
        {
            removed += carver.Cut(motion, _cutter, 5).Removed;
        }
        return removed;
    }

    /// <summary>Rings 2.54 mm apart until ten metres are full; the number of chords keeps each within 0.005 mm of its circle.</summary>
    private static IEnumerable<Motion> Rings(Func<double, int, IEnumerable<Motion>> ring)
    {
        double left = Metres;
        for (double r = 100; left > 0 && r > 4; r -= 2.54)
        {
            left -= 2 * Math.PI * r;
            int chords = (int)Math.Ceiling(Math.PI / Math.Acos(1 - (0.005 / r)));
            foreach (Motion motion in ring(r, chords))
            {
                yield return motion;
            }
        }
    }

    private static IEnumerable<Motion> Chord(double r, int k, int of)
    {
        (double s0, double c0) = Math.SinCos(2 * Math.PI * k / of);
        (double s1, double c1) = Math.SinCos(2 * Math.PI * (k + 1) / of);
        yield return Line(108 + (r * c0), 108 + (r * s0), 108 + (r * c1), 108 + (r * s1), 18, 18);
    }

    private static Motion Arc(double r, int half)
    {
        double side = half == 0 ? r : -r;
        Point3 from = new(108 + side, 108, 18);
        Point3 to = new(108 - side, 108, 18);
        return new Motion(1, MotionKind.ArcCcw, from, to, new Point2(108, 108), 1000, 1);
    }

    private static Motion Line(double x0, double y0, double x1, double y1, double z0, double z1) =>
        new(1, MotionKind.Line, new Point3(x0, y0, z0), new Point3(x1, y1, z1), default, 1000, 1);
}
