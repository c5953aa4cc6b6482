using FixtureGen.Model;
using FixtureGen.Verify.Carving;
using FixtureGen.Verify.Runs;
using FixtureGen.Verify.Shape;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Holding;

/// <summary>Which zones hold no more, and whether the outline is being cut.</summary>
internal sealed record TrimState(bool[] Open, bool Outline);

/// <summary>
/// What holds during each motion of a trim: a zone holds nothing from the motion on that cuts the shell through over it, and the
/// outline is being cut from the first motion on that cuts outside the part.
/// </summary>
internal sealed class TrimStates
{
    /// <summary>A rim that comes so near to a zone only touches its edge, mm.</summary>
    private const double Touch = 0.02;

    private readonly Run _run;
    private readonly Area _part;
    private readonly (Area Area, Box2 Box)[] _zones;
    private readonly List<TrimState> _all;

    public TrimStates(Run run)
    {
        _run = run;
        _part = new Area(Region.From(run.Design.Part.Outer));
        _zones =
        [
            .. run
                .Design.Zones.Select(z => new Area([
                    .. ZoneArea.Acting(z).SelectMany(r => r.Contours).SelectMany(c => c.Segments).Select(Piece.From),
                ]))
                .Select(a => (a, a.Bounds)),
        ];
        _all = [new TrimState(new bool[_zones.Length], false)];
    }

    public IReadOnlyList<TrimState> All => _all;

    /// <summary>The state's number while a motion cuts.</summary>
    public int Before(Motion motion, Cutter cutter)
    {
        TrimState now = _all[^1];
        if (!Run.IsFeed(motion) || Run.Low(motion) >= _run.StockTop)
        {
            return _all.Count - 1;
        }
        bool outline = now.Outline || !_part.Contains(motion.To.Xy);
        bool[] open = now.Open;
        if (Run.Low(motion) < _run.Design.FixtureHeight + JudgeRules.AirGap)
        {
            Piece piece = Piece.From(motion);
            for (int i = 0; i < _zones.Length; i++)
            {
                if (!open[i] && Reaches(_zones[i], piece, cutter.Radius - Touch))
                {
                    open = [.. open];
                    open[i] = true;
                }
            }
        }
        if (outline != now.Outline || open != now.Open)
        {
            _all.Add(new TrimState(open, outline));
        }
        return _all.Count - 1;
    }

    private static bool Reaches((Area Area, Box2 Box) zone, Piece piece, double radius)
    {
        Box2 b = piece.Bounds();
        if (
            b.MaxX + radius < zone.Box.MinX
            || b.MinX - radius > zone.Box.MaxX
            || b.MaxY + radius < zone.Box.MinY
            || b.MinY - radius > zone.Box.MaxY
        )
        {
            return false;
        }
        if (zone.Area.Contains(piece.A))
        {
            return true;
        }
        foreach (Piece edge in zone.Area.Pieces)
        {
            Box2 e = edge.Bounds();
            bool near =
                e.MinX <= b.MaxX + radius
                && e.MaxX >= b.MinX - radius
                && e.MinY <= b.MaxY + radius
                && e.MaxY >= b.MinY - radius;
            if (near && Distance.Between(piece, edge).Distance < radius)
            {
                return true;
            }
        }
        return false;
    }
}
