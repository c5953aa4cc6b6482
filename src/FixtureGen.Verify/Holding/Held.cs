using FixtureGen.Model;

namespace FixtureGen.Verify.Holding;

/// <summary>
/// What holds at one point: Pressed N downwards, and up to Hold N against sliding, in every direction or, where Across is a unit
/// vector, only along it. A magnet's disc, a bolt, a locator pin, a bridge to the scrap.
/// </summary>
internal readonly record struct Grip(Point2 At, double Pressed, double Hold, Point2 Across);

/// <summary>One line that a part may tip about: unit normal to the inside and its offset, mm; Holding N mm presses down about it.</summary>
internal readonly record struct TipLine(Point2 Inward, double Offset, double Holding);

/// <summary>
/// A rigid part or block on what carries it. Force N presses on the bed with first moment Moment (N mm) about the bed's middle;
/// friction is the bed's; grips hold besides. It tips about the hull of all that supports it.
/// </summary>
internal sealed class Held
{
    public Held(Bed bed, double friction, double force, Point2 moment, IReadOnlyList<Grip> grips, Point2[] hull)
    {
        Bed = bed;
        Friction = friction;
        Force = force;
        Moment = moment;
        Grips = [.. grips];
        HasStops = grips.Any(g => g.Pressed <= 0);
        Total = force + grips.Sum(g => g.Pressed);
        Point2 first = (force * bed.Middle) + moment;
        foreach (Grip grip in grips)
        {
            first += grip.Pressed * grip.At;
        }
        TipLines = new TipLine[hull.Length < 3 ? 0 : hull.Length];
        for (int i = 0; i < TipLines.Length; i++)
        {
            Point2 along = hull[(i + 1) % hull.Length] - hull[i];
            Point2 inward = along.Left * (1 / along.Length);
            double offset = inward.Dot(hull[i]);
            TipLines[i] = new TipLine(inward, offset, inward.Dot(first) - (Total * offset));
        }
    }

    public Bed Bed { get; }

    public double Friction { get; }

    public double Force { get; }

    public Point2 Moment { get; }

    public Grip[] Grips { get; }

    /// <summary>All that presses down, N.</summary>
    public double Total { get; }

    public TipLine[] TipLines { get; }

    /// <summary>With stops every search begins afresh: one that begins at a motion which turns about a stop leaves it but slowly.</summary>
    public bool HasStops { get; }
}
