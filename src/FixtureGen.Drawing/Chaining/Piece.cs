using FixtureGen.Model;

namespace FixtureGen.Drawing.Chaining;

/// <summary>A curve on its way into a chain.</summary>
internal sealed record Piece(List<Segment> Path, bool Closed, string Layer)
{
    public Point2 Start => Path[0].Start;

    public Point2 End => Path[^1].End;

    // identity, not content: two pieces that draw the same are still two
    public bool Equals(Piece? other) => ReferenceEquals(this, other);

    public override int GetHashCode() => System.Runtime.CompilerServices.RuntimeHelpers.GetHashCode(this);
}
