using FixtureGen.Model;
using FixtureGen.Verify.Shape;

namespace FixtureGen.Verify.Finished;

/// <summary>Where bridges hold scrap in the shell: there the trim need not cut through.</summary>
internal sealed class Bridges
{
    /// <summary>Ramps up to and down from a bridge, mm on either side.</summary>
    private const double Ramp = 6;

    private readonly List<(Point2 At, double Reach)> _bridges = [];

    public Bridges(FixtureDesign design)
    {
        foreach (TrimCut cut in design.TrimCuts)
        {
            foreach (Tab tab in cut.Tabs)
            {
                double reach = (tab.Length / 2) + cut.Tool.Diameter + Ramp;
                _bridges.Add((PointAlong(cut.Path, tab.At), reach));
            }
        }
    }

    public bool Contains(Point2 p) => _bridges.Any(b => b.At.DistanceTo(p) <= b.Reach);

    private static Point2 PointAlong(Contour path, double at)
    {
        double left = at;
        foreach (Segment segment in path.Segments)
        {
            Piece piece = Piece.From(segment);
            if (left <= piece.Length)
            {
                return piece.PointAt(piece.Length > 0 ? left / piece.Length : 0);
            }
            left -= piece.Length;
        }
        return path.Segments[^1].End;
    }
}
