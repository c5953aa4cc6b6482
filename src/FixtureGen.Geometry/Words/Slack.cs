namespace FixtureGen.Geometry;

/// <summary>The kernel's inner slacks, mm, all derived from <see cref="Tolerances"/>.</summary>
/// <param name="Grid">Curves shorter than this are dropped; coordinates nearer than this are the same.</param>
/// <param name="Near">Two computed points this near are one point.</param>
/// <param name="Slice">Slack of the distance test: a piece this much too near its source is still kept.</param>
/// <param name="Stitch">Ends of pieces this near are joined; a join that closes more than Near is rare.</param>
/// <param name="Stub">
/// A loose piece shorter than this is a sliver that the distance test let through at a tangent point (its height is under
/// Slice), a longer one means that the result is broken.
/// </param>
internal sealed record Slack(double Grid, double Near, double Slice, double Stitch, double Stub)
{
    public static Slack From(Tolerances t) => new(t.Grid, t.Grid / 10, t.Slice, 10 * t.Slice, 25_000 * t.Slice);
}
