using System.Collections.Immutable;
using FixtureGen.Cutting;
using FixtureGen.Model;

namespace FixtureGen.Toolpaths.Moves;

/// <summary>
/// Writes one operation's moves, keeping the tip's place. A move shorter than the written digits is dropped; an arc so short
/// that rounding could close it into a full circle is written as the line it nearly is.
/// </summary>
internal sealed class Pen(Point3 start)
{
    private const double Nothing = 1e-6;

    /// <summary>Above the ground the plunge feed begins, mm.</summary>
    private const double AirGap = 0.2;

    /// <summary>Arcs below this length differ from their chord by less than a tenth of a micrometre, mm.</summary>
    private const double ShortArc = 0.02;

    /// <summary>Segments below this length are short on a slope, mm, where the others make up this share of its length.</summary>
    private const double ShortSlope = 0.2;
    private const double MostlyLong = 0.93;

    private readonly ImmutableArray<Move>.Builder _moves = ImmutableArray.CreateBuilder<Move>();

    public Point3 At { get; private set; } = start;

    public ImmutableArray<Move> Moves => _moves.ToImmutable();

    public void Rapid(Point3 to)
    {
        if (Far(to))
        {
            Add(new RapidMove(to));
        }
    }

    public void RapidZ(double z) => Rapid(At with { Z = z });

    public void Line(Point3 to, double feed)
    {
        if (Far(to))
        {
            Add(new LineMove(to, feed));
        }
    }

    public void LineZ(double z, double feed) => Line(At with { Z = z }, feed);

    /// <summary>Down to the ground: at feed through the air, the last bit at plunge feed.</summary>
    public void Approach(double groundZ, CutData data)
    {
        LineZ(Math.Min(At.Z, groundZ + AirGap), data.Feed);
        LineZ(groundZ, data.Plunge);
    }

    /// <summary>Along a segment to its end, the tip's height going straight to <paramref name="z"/>.</summary>
    public void Follow(Segment s, double z, double feed)
    {
        Point3 to = Point3.From(s.End, z);
        if (s.IsArc && s.Length > ShortArc)
        {
            Add(new ArcMove(to, s.Centre, s.IsCcw, feed));
        }
        else
        {
            Line(to, feed);
        }
    }

    public void Follow(IEnumerable<Segment> chain, double z, double feed)
    {
        foreach (Segment s in chain)
        {
            Follow(s, z, feed);
        }
    }

    /// <summary>
    /// Along a chain while the tip goes evenly from where it is to <paramref name="z"/>. Short segments in a chain of longer
    /// ones are kept level: rounded, their slope would be anything.
    /// </summary>
    public void Slope(IReadOnlyList<Segment> chain, double z, double feed)
    {
        double all = chain.Sum(s => s.Length);
        double slopes = chain.Where(s => s.Length >= ShortSlope).Sum(s => s.Length);
        double least = slopes > MostlyLong * all ? ShortSlope : 0;
        double total = least > 0 ? slopes : all;
        double from = At.Z;
        double done = 0;
        foreach (Segment s in chain)
        {
            done += s.Length >= least ? s.Length : 0;
            Follow(s, from + ((z - from) * done / total), feed);
        }
    }

    /// <summary>A full turn about <paramref name="centre"/>, down to <paramref name="z"/>.</summary>
    public void Turn(Point2 centre, bool ccw, double z, double feed) =>
        Add(new ArcMove(At with { Z = z }, centre, ccw, feed));

    private bool Far(Point3 to) =>
        Math.Abs(to.X - At.X) > Nothing || Math.Abs(to.Y - At.Y) > Nothing || Math.Abs(to.Z - At.Z) > Nothing;

    public void Add(Move move)
    {
        _moves.Add(move);
        At = move.To;
    }
}
