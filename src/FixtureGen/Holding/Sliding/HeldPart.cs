using FixtureGen.Model;

namespace FixtureGen.Holding.Sliding;

/// <summary>A force that presses at one point and the friction there at most, N; Spread mm rounds the cone at the very point.</summary>
internal readonly record struct PressPoint(Point2 At, double Force, double Grip, double Spread);

/// <summary>
/// What one cutter does to the part: a shear force at a place and a height over the contact, and a lift (up positive), N and mm.
/// </summary>
internal readonly record struct CutLoad(Point2 At, Point2 Shear, double Lift, double Height)
{
    public static CutLoad operator *(CutLoad load, double k) =>
        load with
        {
            Shear = load.Shear * k,
            Lift = load.Lift * k,
        };
}

/// <summary>One edge that the part could tip about: inward normal and offset (n.x = Offset on the edge), and what holds it down there, N mm.</summary>
internal readonly record struct TipEdge(Point2 Inward, double Offset, double Holding);

/// <summary>
/// A rigid part on its contact before the cutter touches it. Pressed is the force spread over Contact, its first moment
/// about Contact's middle in Moment; Points press besides. Edges is the convex hull of all that supports, with the moment of
/// every down force about each edge. Forces N, lengths mm.
/// </summary>
internal sealed class HeldPart
{
    private readonly TipEdge[] _bare;
    private TipEdge[]? _edges;

    public HeldPart(
        PressureMeasure contact,
        double friction,
        double pressed,
        Point2 moment,
        IReadOnlyList<PressPoint> points,
        IReadOnlyList<Point2> hull
    )
    {
        Contact = contact;
        Friction = friction;
        Pressed = pressed;
        Moment = moment;
        Points = points;
        Nodes = new FrictionNodes(contact, friction, points);
        Total = pressed + points.Sum(p => p.Force);
        _bare = EdgesOf(hull);
    }

    /// <summary>The same contact and hull under other forces.</summary>
    public HeldPart(HeldPart like, double pressed, Point2 moment, IReadOnlyList<PressPoint> points)
    {
        Contact = like.Contact;
        Friction = like.Friction;
        Pressed = pressed;
        Moment = moment;
        Points = points;
        Nodes = new FrictionNodes(like.Nodes, points);
        Total = pressed + points.Sum(p => p.Force);
        _bare = like._bare;
    }

    public PressureMeasure Contact { get; }

    public double Friction { get; }

    public double Pressed { get; }

    public Point2 Moment { get; }

    public IReadOnlyList<PressPoint> Points { get; }

    public FrictionNodes Nodes { get; }

    /// <summary>Which ends of the ranges and which pressure this is, in words.</summary>
    public string Corner { get; init; } = "";

    /// <summary>All that presses, N.</summary>
    public double Total { get; }

    /// <summary>Worked out when first asked for: most sets of magnets that are tried slide, and are given up, before they tip.</summary>
    public TipEdge[] Edges => _edges ??= Held(_bare);

    private static TipEdge[] EdgesOf(IReadOnlyList<Point2> hull)
    {
        var edges = new TipEdge[hull.Count < 3 ? 0 : hull.Count];
        for (int i = 0; i < edges.Length; i++)
        {
            Point2 along = hull[(i + 1) % hull.Count] - hull[i];
            Point2 inward = along.Left * (1 / along.Length);
            edges[i] = new TipEdge(inward, inward.Dot(hull[i]), 0);
        }
        return edges;
    }

    /// <summary>The edges with what holds the part down about each.</summary>
    private TipEdge[] Held(TipEdge[] edges)
    {
        Point2 first = (Pressed * Contact.Middle) + Moment;
        foreach (PressPoint p in Points)
        {
            first += p.Force * p.At;
        }
        var held = new TipEdge[edges.Length];
        for (int i = 0; i < held.Length; i++)
        {
            held[i] = edges[i] with { Holding = edges[i].Inward.Dot(first) - (Total * edges[i].Offset) };
        }
        return held;
    }
}
