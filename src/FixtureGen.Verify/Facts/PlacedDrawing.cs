using System.Collections.Immutable;
using FixtureGen.Model;
using FixtureGen.Verify.Shape;

namespace FixtureGen.Verify.Facts;

/// <summary>
/// The drawing in the plate frame by the judge's own arithmetic. The pose is the one thing that is believed of a placement that the
/// job leaves open: any pose is a right one as long as what is cut lies in it as drawn and within the block, which is asked for
/// apart. A pose that the job states is compared (<see cref="SeatFacts"/>).
/// </summary>
internal sealed class PlacedDrawing
{
    /// <summary>Side of the bins that edges are sorted into, mm.</summary>
    private const double Bin = 4;

    public PlacedDrawing(Part drawing, Pose pose)
    {
        double turn = pose.AngleDeg * Math.PI / 180;
        (double sin, double cos) = Math.SinCos(turn);
        Point2 Move(Point2 p) => new(pose.X + (p.X * cos) - (p.Y * sin), pose.Y + (p.X * sin) + (p.Y * cos));
        Segment Shift(Segment s) => new(Move(s.Start), Move(s.End), s.IsArc ? Move(s.Centre) : default, s.Kind);
        ImmutableArray<Piece> Pieces(IEnumerable<Segment> line) => Spread.PiecesOf(line.Select(Shift));
        Place = Move;
        Drawing = drawing;
        Outer = Pieces(drawing.Outer.Segments);
        Cutouts = [.. drawing.Cutouts.Select(c => Pieces(c.Segments))];
        Forms = [.. drawing.Forms.Select(f => Pieces(f.Edge.Segments))];
        KeepOuts = [.. drawing.KeepOuts.Select(k => Pieces(k.Segments))];
        Marks = [.. drawing.Engravings.Select(m => Pieces(m.Strokes.SelectMany(s => s.Segments)))];
        Edges = new PieceBins([.. Outer, .. Cutouts.SelectMany(c => c)], Bin);
        Shell = new Area(Edges.Pieces);
    }

    /// <summary>From the part frame to the plate frame.</summary>
    public Func<Point2, Point2> Place { get; }

    public Part Drawing { get; }

    public ImmutableArray<Piece> Outer { get; }

    public ImmutableArray<ImmutableArray<Piece>> Cutouts { get; }

    public ImmutableArray<ImmutableArray<Piece>> Forms { get; }

    public ImmutableArray<ImmutableArray<Piece>> KeepOuts { get; }

    public ImmutableArray<ImmutableArray<Piece>> Marks { get; }

    /// <summary>All edges that the trim leaves.</summary>
    public PieceBins Edges { get; }

    /// <summary>The finished part: inside the outline, outside the cutouts.</summary>
    public Area Shell { get; }
}
