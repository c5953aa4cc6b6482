using FixtureGen.Model;
using FixtureGen.Verify.Shape;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Reading;

/// <summary>G2 and G3: by centre or by radius, in any plane, with the errors that NISTIR 6556 section 3.5.3 lists.</summary>
internal sealed class ArcRunner(Dialect dialect, Limits limits, FindingLog log, Modes modes, Tip tip)
{
    /// <summary>Chord error of arcs outside the XY plane, mm; such arcs are judged as lines.</summary>
    private const double PlaneChord = 0.001;

    public void Run(Block block, bool ccw)
    {
        if (modes.Plane != 170)
        {
            OtherPlaneArc(block, ccw);
            return;
        }
        Point3 to = tip.Target(block, modes);
        if (!block.Has('X') && !block.Has('Y'))
        {
            log.Error("arc-ends-missing", block.Line, "an arc without X and Y", "Write the end point");
            return;
        }
        if (ArcCentre(block, tip.At.Xy, to.Xy, ccw, 'I', 'J', 'K') is { } centre)
        {
            tip.Add(block.Line, ccw ? MotionKind.ArcCcw : MotionKind.ArcCw, to, centre, false);
        }
        else
        {
            tip.At = to;
        }
    }

    private Point2? ArcCentre(Block block, Point2 start, Point2 end, bool ccw, char first, char second, char third)
    {
        bool byCentre = block.Has(first) || block.Has(second);
        double slack = limits.ArcMismatch * (modes.Units == 200 ? 2.54 : 1);
        Point2? Refuse(string code, Text message, Text remedy)
        {
            log.Error(code, block.Line, message, remedy, start);
            return null;
        }
        if (block.Has(third))
        {
            return Refuse("orphan-word", $"{third} has no use in this plane", $"Take {third} out");
        }
        if (block.Has('R') == byCentre)
        {
            string what = byCentre ? "both a centre and a radius" : "neither a centre nor a radius";
            return Refuse("arc-form", $"an arc with {what}", "Write the centre offsets or the radius");
        }
        if (byCentre)
        {
            Point2 offset = new((block.Value(first) ?? 0) * modes.Unit, (block.Value(second) ?? 0) * modes.Unit);
            Point2 centre = start + offset;
            if (offset.Length < 1e-9)
            {
                return Refuse("arc-radius-zero", "an arc of radius zero", "Write the centre offsets");
            }
            double off = ArcSolver.Mismatch(start, end, centre);
            return off > slack + 1e-9
                ? Refuse(
                    "arc-mismatch",
                    $"the arc's end lies {off:0.0000} mm off its circle, {slack:0.0000} mm is allowed",
                    "Correct the end point or the centre"
                )
                : CheckSweep(block, start, end, centre, ccw);
        }
        double radius = block.Value('R')!.Value * modes.Unit;
        return start.DistanceTo(end) < 1e-9
                ? Refuse("arc-form", "a radius arc whose end is its start", "Write a full circle by its centre")
            : ArcSolver.CentreByRadius(start, end, radius, ccw, slack) is { } c ? CheckSweep(block, start, end, c, ccw)
            : Refuse(
                "arc-radius",
                $"radius {Math.Abs(radius):0.0000} mm cannot reach an end {start.DistanceTo(end):0.0000} mm away",
                "Correct the radius or the end point"
            );
    }

    private Point2? CheckSweep(Block block, Point2 start, Point2 end, Point2 centre, bool ccw)
    {
        double degrees = Math.Abs(ArcSolver.Sweep(start, end, centre, ccw)) * 180 / Math.PI;
        double most = dialect.Control.SplitFullCircles ? 359.99 : 360;
        if (dialect.Control.MaxArcSweepDeg > 0)
        {
            double slack = FixtureGen.Verify.Verdicts.JudgeRules.ArcRounding / start.DistanceTo(centre) * 180 / Math.PI;
            most = Math.Min(most, dialect.Control.MaxArcSweepDeg + Math.Max(0.01, slack));
        }
        if (degrees > most + 1e-6)
        {
            log.Error(
                "arc-sweep",
                block.Line,
                $"an arc of {degrees:0.##} degrees, the control takes {most:0.##}",
                "Split the arc, or check its direction",
                start
            );
        }
        return centre;
    }

    /// <summary>G18 and G19: the judge follows the arc by chords that leave it by less than a thousandth.</summary>
    private void OtherPlaneArc(Block block, bool ccw)
    {
        bool zx = modes.Plane == 180;
        Point3 from = tip.At;
        Point3 to = tip.Target(block, modes);
        Point2 Flat(Point3 p) => zx ? new Point2(p.Z, p.X) : new Point2(p.Y, p.Z);
        (char first, char second, char third) = zx ? ('K', 'I', 'J') : ('J', 'K', 'I');
        if (ArcCentre(block, Flat(from), Flat(to), ccw, first, second, third) is not { } centre)
        {
            tip.At = to;
            return;
        }
        Point2 spoke = Flat(from) - centre;
        double sweep = ArcSolver.Sweep(Flat(from), Flat(to), centre, ccw);
        double step = 2 * Math.Acos(Math.Max(0, 1 - (PlaneChord / Math.Max(spoke.Length, PlaneChord))));
        int n = Math.Max(1, (int)Math.Ceiling(Math.Abs(sweep) / Math.Min(step, 1)));
        for (int i = 1; i <= n && tip.HasRoom(block.Line); i++)
        {
            double t = (double)i / n;
            (double sin, double cos) = Math.SinCos(sweep * t);
            Point2 p = centre + new Point2((spoke.X * cos) - (spoke.Y * sin), (spoke.X * sin) + (spoke.Y * cos));
            Point3 next = zx
                ? new Point3(p.Y, from.Y + ((to.Y - from.Y) * t), p.X)
                : new Point3(from.X + ((to.X - from.X) * t), p.X, p.Y);
            tip.Add(block.Line, MotionKind.Line, i == n ? to : next, default, false);
        }
    }
}
