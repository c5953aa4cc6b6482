using System.Collections.Immutable;
using FixtureGen.Cutting;
using FixtureGen.Design.Block;
using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Toolpaths.Moves;

namespace FixtureGen.Toolpaths.Methods;

/// <summary>
/// The ways to raise plugs: an end mill clears round them by levels down to the face, then goes round each terrace from the top
/// down, climbing; what it takes there is the wedge between the wall's draft and the straight wall that clearing left.
/// </summary>
internal static class PlugMethods
{
    /// <summary>Left on the foot by clearing, mm (common practice, no source).</summary>
    private const double Allowance = 0.3;

    private const double PastCorner = 0.2;

    /// <summary>What a tool may leave in the inward corners of the plugs' walls, mm2, seen from above.</summary>
    private const double LeftInCorners = 0.05;

    /// <summary>Beyond the wedge, where the cutter comes down beside it, mm.</summary>
    private const double Beside = 0.5;

    public static IEnumerable<Method> For(PocketFeature plug, Frame frame)
    {
        double deep = plug.TopZ - plug.FloorZ;
        Frame raised = frame with { Heights = frame.Heights with { Face = plug.TopZ } };
        ImmutableArray<Tool> tools = raised.Reaching(plug.FloorZ, _ => true);
        ImmutableArray<Removal> terraces = Fit.RemovalsIn(plug, frame.Setup);
        Region[] feet = [.. plug.Area.SelectMany(a => a.Holes).Select(h => Region.From(Contours.Ccw(h)))];
        foreach (Tool tool in tools)
        {
            if (Measure.Area(frame.Kernel.Difference(frame.Kernel.Close(feet, tool.Radius), feet)) < LeftInCorners)
            {
                yield return Method.Cut(plug, Clear(plug, deep, tool, raised), Finish(plug, terraces, tool, raised));
            }
        }
    }

    private static ToolCut Clear(PocketFeature plug, double deep, Tool tool, Frame frame)
    {
        CutData data = frame.Data(tool, frame.Data(tool, tool.Diameter).StepOver).Over(deep);
        Region past = Region.From(Contours.Rectangle(frame.Block.Outset(Over(tool, frame))));
        Region[] feet = [.. plug.Area.SelectMany(a => a.Holes).Select(h => Region.From(Contours.Ccw(h)))];
        ImmutableArray<Region> area = frame.Kernel.Difference([past], frame.Kernel.Offset(feet, Allowance));
        int passes = Passes.Count(deep, data.StepDown);
        return new ToolCut(
            tool,
            OperationKind.Clear,
            data,
            passes * Measure.Area(area) / data.StepOver / data.Feed,
            () =>
                [
                    .. area.Select(a =>
                            Clearing.Clear(
                                plug.Name,
                                a,
                                tool,
                                data,
                                frame.Heights,
                                plug.TopZ,
                                [.. Passes.Down(plug.TopZ, plug.FloorZ, data.StepDown)],
                                0,
                                0,
                                frame.Block,
                                frame.Kernel
                            )
                        )
                        .OfType<Piece>(),
                ]
        );
    }

    /// <summary>How far clearing reaches past the block's edge, so that the cutter's round takes the block's corners wherever it lies, mm.</summary>
    private static double Over(Tool tool, Frame frame) =>
        (tool.Radius * (1 - Math.Sqrt(0.5))) + frame.Job.Plate.PlacingTolerance + PastCorner;

    private static ToolCut Finish(PocketFeature plug, ImmutableArray<Removal> terraces, Tool tool, Frame frame)
    {
        CutData data = frame.Data(tool, tool.Radius);
        (double Z, Contour Line)[] rounds =
        [
            .. terraces.SelectMany(t =>
                t.Area.SelectMany(a => a.Holes)
                    .SelectMany(h => frame.Kernel.Offset([Region.From(Contours.Ccw(h))], tool.Radius))
                    .Select(r => (t.FloorZ, Contours.Cw(r.Outer)))
            ),
        ];
        Contour[] feet = [.. rounds.Where(r => r.Z <= plug.FloorZ + 1e-9).Select(r => r.Line)];
        return new ToolCut(
            tool,
            OperationKind.Profile,
            data,
            rounds.Sum(r => Measure.Length(r.Line) + (2 * (plug.TopZ - r.Z))) / data.Feed,
            () =>
                [.. feet.Select(f => Around(plug.Name, f, [.. rounds.Where(r => Holds(f, r.Line))], tool, data, frame))]
        );
    }

    private static bool Holds(Contour foot, Contour round) =>
        Inside.Contains(foot, round.Segments[0].Start) || Measure.Distance(round.Segments[0].Start, foot) < 1e-6;

    private static Piece Around(
        string feature,
        Contour foot,
        (double Z, Contour Line)[] rounds,
        Tool tool,
        CutData data,
        Frame frame
    )
    {
        Segment first = foot.Segments.MaxBy(s => Math.Round(s.Length, 3));
        Point2 on = first.IsArc ? first.Start : 0.5 * (first.Start + first.End);
        double wedge = rounds.Max(r => Measure.Distance(on, r.Line));
        Point2 beside = Outside(foot, first, on, Allowance + wedge + Beside);
        double hop = frame.Heights.Hop;
        return new Piece(
            feature,
            [
                new Way(
                    beside,
                    on,
                    pen =>
                    {
                        foreach ((double z, Contour line) in rounds.OrderByDescending(r => r.Z))
                        {
                            (double at, Point2 near, _) = Along.Nearest(line.Segments, beside);
                            double length = Measure.Length(line);
                            pen.RapidZ(hop);
                            pen.Rapid(Point3.From(beside, hop));
                            pen.LineZ(z, data.Feed);
                            pen.Line(Point3.From(near, z), data.Feed);
                            pen.Follow(Along.Loop(line.Segments, at, length + (tool.Radius / 4)), z, data.Feed);
                        }
                        pen.RapidZ(hop);
                        pen.Rapid(Point3.From(on, hop));
                    }
                ),
            ]
        );
    }

    /// <summary>A place so far outside of a point on a clockwise line round something.</summary>
    private static Point2 Outside(Contour line, Segment s, Point2 on, double away)
    {
        Point2 along = s.IsArc ? (on - s.Centre).Left : s.End - s.Start;
        Point2 left = along.Left * (away / along.Length);
        return Inside.Contains(line, on + left) ? on - left : on + left;
    }
}
