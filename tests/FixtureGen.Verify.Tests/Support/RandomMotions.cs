using CsCheck;
using FixtureGen.Model;
using FixtureGen.Verify.Carving;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Tests.Support;

/// <summary>Motions and cutters over a block of 40 mm by 40 mm (or as wide as asked), 10 mm high; some begin or end beside it.</summary>
internal static class RandomMotions
{
    public const double Top = 10;

    /// <summary>An end mill, a ball, an engraver, a drill and an end mill of 1 mm.</summary>
    public static IReadOnlyList<Cutter> Cutters { get; } =
    [
        Cutter.From(TestShop.EndMill(1, 6)),
        Cutter.From(TestShop.Ball(2, 5)),
        Cutter.From(TestShop.Cone(3, ToolKind.Engraver, 6, 60, 0.4)),
        Cutter.From(TestShop.Cone(4, ToolKind.Drill, 5, 118, 0)),
        Cutter.From(TestShop.EndMill(5, 1)),
    ];

    private static readonly Gen<Motion> Line = Gen.Select(
        Gen.Double[-4, 44],
        Gen.Double[-4, 44],
        Gen.Double[-4, 44],
        Gen.Double[-4, 44],
        Heights,
        (x0, y0, x1, y1, z) => new Motion(1, MotionKind.Line, new(x0, y0, z.Z0), new(x1, y1, z.Z1), default, 100, 1)
    );

    private static readonly Gen<Motion> AnyArc = Gen.Select(
        Gen.Double[5, 35],
        Gen.Double[5, 35],
        Gen.Double[0.3, 14],
        Gen.Double[0, 6.2],
        Gen.OneOf(Gen.Double[0.1, 6.2], Gen.Double[-6.2, -0.1], Gen.Const(2 * Math.PI)),
        Heights,
        (x, y, r, from, sweep, z) => Arc(x, y, r, from, sweep, z.Z0, z.Z1)
    );

    private static readonly Gen<Motion> Plunge = Gen.Select(
        Gen.Double[-4, 44],
        Gen.Double[-4, 44],
        Heights,
        (x, y, z) => new Motion(1, MotionKind.Line, new(x, y, z.Z0), new(x, y, z.Z1), default, 100, 1)
    );

    private static Gen<(double Z0, double Z1)> Heights =>
        Gen.Select(Gen.Double[1, 9], Gen.Double[1, 9], Gen.Bool, (a, b, level) => (a, level ? a : b));

    /// <summary>Mostly lines and arcs, level or not; some plunges.</summary>
    public static Gen<Motion> Any => Gen.Frequency((4, Line), (4, AnyArc), (1, Plunge));

    /// <summary>40 mm along Y, uncut.</summary>
    public static BlockGrid Grid(double cell, double width = 40) => new(new Box2(0, 0, width, 40), cell, 0, Top);

    /// <summary>Round a centre from an angle by a signed sweep, radians; over 6.28 a full turn.</summary>
    public static Motion Arc(double x, double y, double r, double from, double sweep, double z0, double z1)
    {
        Point3 At(double a, double z) => new(x + (r * Math.Cos(a)), y + (r * Math.Sin(a)), z);
        double to = Math.Abs(sweep) > 6.28 ? from : from + sweep;
        MotionKind kind = sweep > 0 ? MotionKind.ArcCcw : MotionKind.ArcCw;
        return new Motion(1, kind, At(from, z0), At(to, z1), new Point2(x, y), 100, 1);
    }
}
