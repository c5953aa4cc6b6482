using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.App.Page.Jobs;

/// <summary>Findings with their places, for a list and for the drawing beside it.</summary>
internal static class FindingPlaces
{
    /// <summary>The finding with its place in the plate's frame: one of the drawing is placed as the part is, or has none where that lies nowhere.</summary>
    public static PlacedFinding OnPlate(Finding f, string drawingFile, FixtureDesign? design)
    {
        bool drawn =
            f.Where.StartsWith(drawingFile, StringComparison.Ordinal)
            || f.Where.EndsWith(" of the drawing", StringComparison.Ordinal);
        return Describe(
            !drawn || f.At is not { } at
                ? f
                : f with
                {
                    At = design is null ? null : Transform.Apply(design.Placement.Pose, at),
                }
        );
    }

    /// <summary>The finding; its place, mm, in the frame that it was made in.</summary>
    public static PlacedFinding Describe(Finding f) =>
        new(f.Code, Words.For(f.Severity), f.Where, f.Message, f.Remedy, f.Line, f.At is { } at ? [at.X, at.Y] : null);
}
