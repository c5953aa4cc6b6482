using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Cutting;

/// <summary>What one operation on the block does to it: peak force, where and how high.</summary>
internal static class BlockCut
{
    private const double Grid = 1e-6;

    /// <summary>Feed per tooth from the operation's own feed and speed; depth and width from its steps; N.</summary>
    public static (CutForce Force, double LoadN) Load(Operation op, Job job, double faceZ)
    {
        Tool tool = op.Tool;
        double fz = op.FeedMmPerMin / (Math.Max(1, op.SpindleRpm) * Math.Max(1, tool.Flutes));
        CutForce force = op.Kind switch
        {
            OperationKind.Drill => CuttingForce.Drill(tool, job.BlockMaterial, fz, job.DullFactor),
            OperationKind.Engrave or OperationKind.TrimEngrave => Engraving(op, job, fz, faceZ),
            OperationKind.Skim
            or OperationKind.Clear
            or OperationKind.Profile
            or OperationKind.Groove
            or OperationKind.Bore
            or OperationKind.TrimCutout
            or OperationKind.TrimOutline => CuttingForce.Peak(
                tool,
                job.BlockMaterial,
                op.StepDown,
                Width(op),
                fz,
                job.DullFactor
            ),
        };
        return (force, Math.Sqrt((force.Shear * force.Shear) + (force.Axial * force.Axial)));
    }

    /// <summary>Highest cutting move over the plate's face, mm: rapids and retracts do not count.</summary>
    public static double Height(Operation op)
    {
        double highest = 0;
        Point3? last = null;
        foreach (Move move in op.Moves)
        {
            if (move is LineMove or ArcMove)
            {
                double z = last is { } from ? Math.Min(from.Z, move.To.Z) : move.To.Z;
                highest = Math.Max(highest, z);
            }
            else if (move is DrillMove drill)
            {
                highest = Math.Max(highest, drill.RetractZ);
            }
            last = move.To;
        }
        return highest;
    }

    /// <summary>Where the operation cuts: ends of its moves, and where its arcs bulge farthest out.</summary>
    public static Point2[] Places(Operation op)
    {
        List<Point2> places = [];
        Point2? last = null;
        foreach (Move move in op.Moves)
        {
            if (move is ArcMove arc)
            {
                places.AddRange(Bulges(last ?? arc.To.Xy, arc));
            }
            if (move is not RapidMove)
            {
                places.Add(move.To.Xy);
            }
            last = move.To.Xy;
        }
        return [.. places.Distinct()];
    }

    // A long arc of a large radius passes none of its circle's far sides.
    private static IEnumerable<Point2> Bulges(Point2 from, ArcMove arc)
    {
        double radius = arc.Centre.DistanceTo(arc.To.Xy);
        IEnumerable<Point2> sides = new Point2[] { new(1, 0), new(0, 1), new(-1, 0), new(0, -1) }.Select(d =>
            arc.Centre + (d * radius)
        );
        if (from.DistanceTo(arc.To.Xy) < Grid)
        {
            return sides;
        }
        Box2 box = Measure.Bounds(Segment.Arc(from, arc.To.Xy, arc.Centre, arc.Ccw));
        return sides.Where(p =>
            p.X > box.MinX - Grid && p.X < box.MaxX + Grid && p.Y > box.MinY - Grid && p.Y < box.MaxY + Grid
        );
    }

    /// <summary>A groove, a bore and an entry cut over the tool's whole width; clearing by its step, the first ring excepted.</summary>
    private static double Width(Operation op) =>
        op.Kind is OperationKind.Groove or OperationKind.Bore or OperationKind.Clear || op.StepOver <= 0
            ? op.Tool.Diameter
            : op.StepOver;

    private static CutForce Engraving(Operation op, Job job, double fz, double faceZ)
    {
        double lowest = op.Moves.Where(m => m is LineMove or ArcMove).Min(m => m.To.Z);
        double depth = Math.Clamp(faceZ - lowest, 0.01, Math.Max(0.01, op.Tool.ConeHeight));
        double width = EngraverFeeds.WidthAt(op.Tool, depth);
        Tool point = op.Tool with { Diameter = width, Helix = HelixDirection.Straight };
        return CuttingForce.Peak(point, job.BlockMaterial, depth, width, fz, job.DullFactor);
    }
}
