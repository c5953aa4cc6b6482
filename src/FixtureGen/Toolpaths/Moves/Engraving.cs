using System.Collections.Immutable;
using FixtureGen.Cutting;
using FixtureGen.Model;

namespace FixtureGen.Toolpaths.Moves;

/// <summary>Single strokes at one depth, straight down and along; strokes that go on where another ended are one piece.</summary>
internal static class Engraving
{
    private const double Same = 1e-3;

    /// <summary>The plunge feed begins this far above the face, whose height is known, mm.</summary>
    private const double GroundGap = 0.1;

    public static IEnumerable<Piece> Strokes(
        string feature,
        IEnumerable<OpenPath> strokes,
        CutData data,
        Heights heights,
        double topZ,
        double depth
    )
    {
        List<ImmutableArray<Segment>> chains = [];
        foreach (OpenPath stroke in strokes)
        {
            if (chains.Count > 0 && chains[^1][^1].End.DistanceTo(stroke.Start) < Same)
            {
                chains[^1] = chains[^1].AddRange(stroke.Segments);
            }
            else
            {
                chains.Add(stroke.Segments);
            }
        }
        foreach (ImmutableArray<Segment> chain in chains)
        {
            ImmutableArray<Segment> back = [.. Along.Reversed(chain)];
            yield return new Piece(feature, [Way(chain), Way(back)]);
        }

        Way Way(ImmutableArray<Segment> chain) =>
            new(
                chain[0].Start,
                chain[^1].End,
                pen =>
                {
                    pen.RapidZ(Math.Min(pen.At.Z, heights.Face + Heights.HopGap));
                    pen.LineZ(Math.Min(pen.At.Z, heights.Face + GroundGap), data.Feed);
                    pen.LineZ(topZ - depth, data.Plunge);
                    pen.Follow(chain, topZ - depth, data.Feed);
                    pen.RapidZ(heights.Hop);
                }
            );
    }
}
