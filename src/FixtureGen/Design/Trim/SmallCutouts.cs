using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design.Trim;

/// <summary>
/// Cutouts that the trim cutter does not fit into and that the job wants marked or left: they are no cutouts of this job then. A mark is
/// a cross over the hole's middle, engraved on the shell, for a drill to start in. Every one is named in a note. Part frame, mm.
/// </summary>
public static class SmallCutouts
{
    /// <summary>Half the length of a cross's strokes, mm (common practice, no source).</summary>
    private const double Arm = 1;

    /// <summary>How far from a circle a hole may be and still be drilled, mm.</summary>
    private const double Same = 0.01;

    /// <summary>The part as the job will trim it. Failed where what is to be marked is no round hole.</summary>
    public static Stage<Part> Settle(Part part, Job job, Tolerances tolerances)
    {
        if (job.SmallHoles is not (SmallHoles.Spot or SmallHoles.Leave))
        {
            return Stage.Answer(part, []);
        }
        Kernel kernel = new(tolerances);
        ImmutableArray<Contour> small = [.. part.Cutouts.Where(c => !SecondCutter.Fits(c, job.TrimTool, kernel))];
        if (small.IsEmpty)
        {
            return Stage.Answer(part, []);
        }
        bool spot = job.SmallHoles == SmallHoles.Spot;
        Contour? odd = small.FirstOrDefault(c => !Circles.IsCircle(c, Same));
        if (spot && odd is not null)
        {
            return Stage.Failed<Part>(TrimFindings.SpotNotRound(Measure.Bounds(odd), job.TrimTool));
        }
        Part left = part with
        {
            Cutouts = [.. part.Cutouts.Where(c => !small.Contains(c))],
            Engravings = spot ? [.. part.Engravings, .. small.Select(Cross)] : part.Engravings,
        };
        return Stage.Answer(left, [TrimFindings.SmallHolesNotCut(small, spot)]);
    }

    private static EngraveMark Cross(Contour hole)
    {
        Point2 at = hole.Segments[0].Centre;
        OpenPath Stroke(Point2 half) => new([Segment.Line(at - half, at + half)]);
        return new EngraveMark([Stroke(new Point2(Arm, 0)), Stroke(new Point2(0, Arm))], "", at, 2 * Arm, 0);
    }
}
