using System.Collections.Immutable;
using FixtureGen.Model;
using FixtureGen.Verify.Shape;

namespace FixtureGen.Verify.Facts;

/// <summary>
/// Corners that a second cutter cuts before the trim cutter: the job lets it, the cutter is a thinner end mill of the rack, and all of its
/// way lies in the scrap with its radius from every drawn edge. Whether the edges are cut by all cutters together is <see cref="EdgeFit"/>'s.
/// </summary>
internal static class CornerFacts
{
    public static void Check(FactRun facts, TrimCut corner)
    {
        Point2 at = corner.Path.Segments[0].Start;
        if (facts.Job.InnerCorners != InnerCorners.SecondCutter)
        {
            FactFindings.Trim(facts, corner.Name, "the job asks for no second cutter in inner corners", at);
        }
        Tool tool = corner.Tool;
        bool thinner =
            tool.Kind == ToolKind.EndMill
            && tool.Diameter < facts.Job.TrimTool.Diameter
            && facts.Job.Tools.Contains(tool);
        if (!thinner)
        {
            FactFindings.Trim(
                facts,
                corner.Name,
                $"{tool.Name} is no end mill of the rack thinner than the trim cutter",
                at
            );
        }
        ImmutableArray<Piece> way = Spread.PiecesOf([
            .. corner.Path.Segments,
            .. corner.LeadIn.Segments,
            .. corner.LeadOut.Segments,
            .. corner.Clearing.SelectMany(c => c.Segments),
        ]);
        Spread off = Spread.Find(way, facts.Drawing.Edges, tool.Radius - Fits.Place, double.MaxValue / 4);
        bool inPart = way.Any(p => facts.Drawing.Shell.Contains(p.PointAt(0.5)));
        if (inPart)
        {
            FactFindings.Trim(facts, corner.Name, "it runs on the part's side of the edge", at);
        }
        else if (off.Least < tool.Radius - Fits.Place)
        {
            FactFindings.Wall(facts, corner.Name, off.LeastAt, off.Least - tool.Radius, Fits.Place, Setup.Trim);
        }
    }
}
