using System.Collections.Immutable;
using FixtureGen.Cutting;
using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Toolpaths.Moves;

namespace FixtureGen.Toolpaths.Methods;

/// <summary>
/// The wall of a hole or short slot that was drilled in its middle: at every depth the end mill goes down in the drilled hole,
/// out to the wall in a half circle that meets it along its tangent, once round (climb, counter-clockwise inside) and back. The
/// last round, at full depth or in a few laps, takes what was left on a wall that matters.
/// </summary>
internal static class Walls
{
    /// <param name="open">How far down the drilled hole has its full width: to the floor in a through hole, else to where its cone begins.</param>
    public static ToolCut Cutting(HoleFeature hole, double floor, double open, Tool tool, Frame frame)
    {
        CutData data = frame.Data(tool, tool.Diameter);
        double share = Math.Max(RoundMethods.LeastShare, (hole.Diameter - tool.Diameter) / hole.Diameter);
        data = RoundMethods.AtTheWall(data, share);
        data = data.Over(hole.TopZ - floor);
        double allowance = RoundMethods.Allowance(hole.Kind, tool, frame.Heights.Face - floor);
        double round = (Math.PI * (hole.Diameter - tool.Diameter)) + (2 * hole.SlotLength);
        double rounds = Passes.Count(hole.TopZ - floor, data.StepDown) + 1 + ((open - floor) / Pitch(round, data));
        return new ToolCut(
            tool,
            OperationKind.Bore,
            data,
            rounds * (round + hole.Diameter) / data.Feed,
            () => [Piece(hole, floor, open, tool, allowance, data, frame)]
        );
    }

    /// <summary>How far a turn of so many mm goes down at the steepest ramp, mm.</summary>
    private static double Pitch(double turn, CutData data) =>
        Math.Min(data.StepDown, turn * Math.Tan(data.MaxRampDeg * Math.PI / 180));

    private static Piece Piece(
        HoleFeature hole,
        double floor,
        double open,
        Tool tool,
        double allowance,
        CutData data,
        Frame frame
    )
    {
        ImmutableArray<Region> area = Fit.RemovalsIn(hole, frame.Setup)[^1].Area;
        Contour wall = Line(area, tool.Radius, frame.Kernel);
        Contour rough = allowance > 0 ? Line(area, tool.Radius + allowance, frame.Kernel) : wall;
        return new Piece(
            hole.Name,
            [
                new Way(
                    hole.At,
                    hole.At,
                    pen =>
                    {
                        foreach (double z in Passes.Down(hole.TopZ, open, data.StepDown))
                        {
                            pen.LineZ(z, data.Feed);
                            Round(pen, hole.At, rough, tool.Radius, z, data.Feed);
                        }
                        if (open > floor)
                        {
                            Helix(pen, hole.At, (hole.Diameter / 2) - allowance - tool.Radius, floor, data);
                        }
                        double radius = (hole.Diameter / 2) - tool.Radius;
                        double lap = WallLaps.Depth(
                            frame.Data(tool, tool.Diameter).StepDown,
                            radius,
                            tool.Radius,
                            allowance
                        );
                        double[] laps = allowance > 0 ? [.. Passes.Down(hole.TopZ, floor, lap)] : [];
                        foreach (double z in laps)
                        {
                            if (laps.Length > 1)
                            {
                                pen.LineZ(z, data.Feed);
                            }
                            Round(pen, hole.At, wall, tool.Radius, z, data.Feed);
                        }
                        pen.RapidZ(frame.Heights.Hop);
                    }
                ),
            ]
        );
    }

    /// <summary>On down by a helix from the middle of the hole, once round at the floor and back to the middle.</summary>
    private static void Helix(Pen pen, Point2 middle, double radius, double floor, CutData data)
    {
        HalfCircle(pen, middle + new Point2(radius, 0), pen.At.Z, data.Feed);
        foreach (double z in Passes.Down(pen.At.Z, floor, Pitch(2 * Math.PI * radius, data)))
        {
            pen.Turn(middle, ccw: true, z, data.Feed);
        }
        pen.Turn(middle, ccw: true, floor, data.Feed);
        HalfCircle(pen, middle, floor, data.Feed);
    }

    private static Contour Line(ImmutableArray<Region> area, double inside, Kernel kernel) =>
        Contours.Ccw(kernel.Offset(area, -inside)[0].Outer);

    private static void Round(Pen pen, Point2 middle, Contour wall, double cutterRadius, double z, double feed)
    {
        (double at, Point2 nearest, _) = Along.Nearest(wall.Segments, middle);
        HalfCircle(pen, nearest, z, feed);
        double length = Measure.Length(wall);
        pen.Follow(Along.Loop(wall.Segments, at, length + Overlap.Length(cutterRadius, length)), z, feed);
        HalfCircle(pen, middle, z, feed);
    }

    private static void HalfCircle(Pen pen, Point2 to, double z, double feed)
    {
        Point2 from = pen.At.Xy;
        pen.Follow(Segment.Arc(from, to, (from + to) * 0.5, ccw: true), z, feed);
    }
}
