using FixtureGen.Model;

namespace FixtureGen.Holding.Sliding;

/// <summary>One piece of a contact: its middle, its share of the whole, and half the trace of its second moment, mm2.</summary>
internal readonly record struct ContactPiece(Point2 At, double Share, double Spread2);

/// <summary>
/// How normal pressure lies over a contact: pieces with shares that add up to 1. A piece's distance from a centre of
/// rotation is taken as sqrt(r^2 + Spread2), which is the mean distance of the piece's own area to second order.
/// </summary>
internal sealed class PressureMeasure
{
    public PressureMeasure(IEnumerable<ContactPiece> pieces)
    {
        ContactPiece[] all = [.. pieces];
        double whole = all.Sum(p => p.Share);
        if (!(whole > 0))
        {
            throw new ArgumentException("A contact has an extent.", nameof(pieces));
        }
        Pieces = [.. all.Select(p => p with { Share = p.Share / whole })];
        Middle = new Point2(Pieces.Sum(p => p.Share * p.At.X), Pieces.Sum(p => p.Share * p.At.Y));
        foreach (ContactPiece p in Pieces)
        {
            Point2 d = p.At - Middle;
            Xx += p.Share * d.X * d.X;
            Xy += p.Share * d.X * d.Y;
            Yy += p.Share * d.Y * d.Y;
            Reach = Math.Max(Reach, d.Length);
        }
    }

    public ContactPiece[] Pieces { get; }

    /// <summary>Centre of the contact, mm.</summary>
    public Point2 Middle { get; }

    /// <summary>Second moments of the pieces' middles about the centre, mm2.</summary>
    public double Xx { get; }

    public double Xy { get; }

    public double Yy { get; }

    /// <summary>Farthest piece from the centre, mm.</summary>
    public double Reach { get; }

    /// <summary>
    /// The plane pressure a + b.x with no net force whose first moment about the centre is the one given: its slope. Where
    /// the contact is thin in one direction it cannot take a moment that way, and the slope there is 0.
    /// </summary>
    public Point2 SlopeFor(Point2 moment)
    {
        double trace = Xx + Yy;
        double determinant = (Xx * Yy) - (Xy * Xy);
        if (determinant > 1e-9 * trace * trace)
        {
            return new Point2(
                ((Yy * moment.X) - (Xy * moment.Y)) / determinant,
                ((Xx * moment.Y) - (Xy * moment.X)) / determinant
            );
        }
        if (trace <= 0)
        {
            return default;
        }
        double angle = Math.Atan2(2 * Xy, Xx - Yy) / 2;
        Point2 along = new(Math.Cos(angle), Math.Sin(angle));
        return along * (moment.Dot(along) / trace);
    }
}
