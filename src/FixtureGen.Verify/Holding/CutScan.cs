using FixtureGen.Model;
using FixtureGen.Verify.Carving;
using FixtureGen.Verify.Reading;
using FixtureGen.Verify.Runs;
using FixtureGen.Verify.Shape;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Holding;

/// <summary>
/// What each motion cuts, looked at while the block is carved: the material before the cutter's leading half, and with it the thickest
/// chip times its depth. Where the width is a share a of the diameter below one half that is fz 2 sqrt(a (1 - a)) times the depth, in
/// a full slot fz times the depth (chip thinning, Machinery's Handbook, milling feeds). The force is that times the upper end of the
/// material's specific force and the job's factor for a dull cutter.
/// </summary>
internal sealed class CutScan(Run run)
{
    /// <summary>Along a motion there is a look at least so often, mm, and at both ends; no motion has more looks than Most.</summary>
    private const double Spacing = 2.5;

    private const double Turn = 0.2;
    private const int Most = 200;

    /// <summary>Share of a drill's or plunging mill's lip force that does not balance; common practice, no source.</summary>
    private const double Unbalanced = 0.5;

    /// <summary>A shell may be thicker than it was carved; its raw face then stands so much higher, mm.</summary>
    private readonly double _higher =
        run.Setup == Setup.Trim ? Math.Max(0, run.Job.Shell.ThicknessMax - run.Job.Shell.Thickness) : 0;

    /// <summary>Feeds as the machine can really come to them, with twice the acceleration that its file states for a margin; mm/min.</summary>
    private readonly double[] _reached = Timing.Reached(run.Trace, run.Job.Plate.Machine, 2);

    private readonly Looks _looks = new(run.Grid);
    private readonly float _raw = (float)(run.Grid.RawTopZ - 1e-4);
    private readonly double _bottom = run.Grid.RawBottomZ;
    private double _way;
    private int _seen = -1;

    /// <summary>In the program's order.</summary>
    public List<Cut> Cuts { get; } = [];

    /// <summary>To be called before the motion is carved.</summary>
    public void Before(int index, ProgramEvent e, Motion motion, Cutter cutter, int state)
    {
        if (!Cutting(e, motion))
        {
            Break();
            return;
        }
        Piece piece = Piece.From(motion);
        if (piece.Length < 1e-9)
        {
            Break();
            Plunge(index, motion, cutter, PerTooth(index, e, cutter), state);
            return;
        }
        int n = (int)Math.Clamp(Math.Ceiling(Math.Max(piece.Length / Spacing, Math.Abs(piece.Sweep) / Turn)), 1, Most);
        double last = 1 - Math.Min(0.5 / n, 2 * run.Grid.Cell / piece.Length);
        for (int i = 0; i <= n; i++)
        {
            _looks.Take(LookAt(index, e, motion, cutter, piece, i == n ? last : (double)i / n, state));
        }
        _way += piece.Length;
    }

    private Look LookAt(int index, ProgramEvent e, Motion motion, Cutter cutter, Piece piece, double t, int state)
    {
        double tip = motion.From.Z + ((motion.To.Z - motion.From.Z) * t);
        return new Look
        {
            Motion = index,
            At = piece.PointAt(t),
            Ahead = piece.Tangent(t),
            Tip = tip,
            Rim = Math.Max(cutter.RadiusAt(run.Grid.RawTopZ + _higher - tip), 1e-3),
            PerTooth = PerTooth(index, e, cutter),
            Cutter = cutter,
            State = state,
            Way = _way + (t * piece.Length),
        };
    }

    private double PerTooth(int index, ProgramEvent e, Cutter cutter) =>
        _reached[index] / (e.State.Rpm * Math.Max(1, cutter.Tool.Flutes));

    /// <summary>
    /// To be called once it was carved. A cut too narrow for the looks is known by what it took, its width being the mean along the
    /// way but no more than what the looks leave out.
    /// </summary>
    public void After(int index, ProgramEvent e, Motion motion, Cutter cutter, Tally tally, int state)
    {
        Piece piece = Piece.From(motion);
        _looks.Settle(_way, piece, _raw, _higher, Add);
        if (
            _seen == index
            || !Cutting(e, motion)
            || tally.Removed <= JudgeRules.NoMaterial
            || piece.Length < cutter.Radius
        )
        {
            return;
        }
        double width = tally.Removed / (piece.Length * Math.Max(tally.Deepest, Looks.NoDepth));
        double a = Math.Min(Math.Min(width, _looks.LeftOut(cutter.Radius)) / cutter.Tool.Diameter, 0.5);
        double arc = Math.Acos(1 - (2 * a));
        Taken taken = Taken.Between(tally.Deepest, Math.Sin(arc), (Math.PI / 2) - arc, Math.PI / 2, 1);
        for (int i = 0; i <= 2; i++)
        {
            Add(LookAt(index, e, motion, cutter, piece, i / 2.0, state), taken);
        }
    }

    /// <summary>An engraver that scratches the shell: it is not carved, its depth is its height under the thickest shell's face.</summary>
    public void Mark(int index, ProgramEvent e, Motion motion, Cutter cutter, int state, double rise)
    {
        Break();
        double depth = run.Design.FixtureHeight + rise + run.Job.Shell.ThicknessMax - Run.Low(motion);
        Piece piece = Piece.From(motion);
        if (!Cutting(e, motion) || depth <= Looks.NoDepth || piece.Length < 1e-9)
        {
            return;
        }
        for (int i = 0; i <= 1; i++)
        {
            Add(LookAt(index, e, motion, cutter, piece, i, state), new Taken(depth, 1, Math.PI, 2));
        }
    }

    /// <summary>The cutter leaves what it cuts.</summary>
    public void Break() => _looks.SettleAll(_raw, _higher, Add);

    private static bool Cutting(ProgramEvent e, Motion motion) =>
        Run.IsFeed(motion) && e.State.Rpm > 0 && motion.FeedMmPerMin > 0;

    /// <summary>
    /// How much of a depth the edges cut at once, mm: all of it where they are straight or the cut is wide. A helix turns over the depth; what it turns
    /// farther than the cut is wide has left it below before it comes in at the top, and the next edge follows a pitch behind.
    /// </summary>
    private static double AtOnce(Tool tool, Taken taken)
    {
        double slope = tool.Helix == HelixDirection.Straight ? 0 : Math.Tan(tool.HelixAngleDeg * Math.PI / 180);
        double depth = taken.Depth;
        double turn = depth * slope / tool.Radius;
        if (turn <= taken.Arc)
        {
            return depth;
        }
        double pitch = 2 * Math.PI / Math.Max(1, tool.Flutes);
        double whole = Math.Floor(turn / pitch);
        return Math.Min(
            depth,
            tool.Radius / slope * ((whole * taken.Even) + Math.Min(taken.Even, turn - (whole * pitch)))
        );
    }

    private void Plunge(int index, Motion motion, Cutter cutter, double fz, int state)
    {
        Point2 at = motion.To.Xy;
        double r = cutter.RadiusAt(Math.Max(0, run.Grid.RawTopZ + _higher - motion.To.Z));
        double highest = Top(at);
        for (int k = 0; k < 8; k++)
        {
            (double sin, double cos) = Math.SinCos(k * Math.PI / 4);
            highest = Math.Max(highest, Top(at + (new Point2(cos, sin) * (0.7 * r))));
        }
        double depth = Math.Min(motion.From.Z, highest) - Math.Max(motion.To.Z, _bottom);
        if (motion.To.Z >= motion.From.Z || depth <= Looks.NoDepth)
        {
            return;
        }
        bool drill = cutter.Tool.Kind == ToolKind.Drill;
        double chip = Math.Min(fz, depth);
        double lip = run.Material.SpecificForceMax * run.Job.DullFactor * chip * r;
        // a drill that breaks through may pull the work up by as much as its lips push; a mill's thrust keeps it down
        CutPattern pattern = new(CutKind.Plunge, drill ? 1 / Unbalanced : 0, HeightOf(highest));
        Seen(
            new Cut
            {
                Motion = index,
                At = at,
                AngleRad = 0,
                ForceN = Unbalanced * lip,
                DepthMm = depth,
                ByDepth = false,
                ChipMm = chip,
                Pattern = pattern,
                State = state,
            }
        );
    }

    private void Add(Look look, Taken taken)
    {
        Tool tool = look.Cutter.Tool;
        double chip = look.PerTooth * taken.Thin;
        bool flutes = tool.Kind is ToolKind.EndMill or ToolKind.BallMill or ToolKind.FaceMill;
        double depth = flutes ? AtOnce(tool, taken) : taken.Depth;
        // a half turn at the most is engaged, a quarter where the chip is thinned; edges at the same time count as if each took the thickest
        double edges = Math.Max(1, Math.Ceiling(Math.Max(1, tool.Flutes) * (taken.Thin < 1 - 1e-6 ? 0.25 : 0.5)));
        double force = run.Material.SpecificForceMax * run.Job.DullFactor * depth * chip * (flutes ? edges : 1);
        double pitch = flutes ? Math.Tan(tool.HelixAngleDeg * Math.PI / 180) : 0;
        double lift = tool.Helix switch
        {
            HelixDirection.Up => pitch,
            HelixDirection.Down => -pitch,
            HelixDirection.Straight => 0,
        };
        CutPattern pattern = new(CutKind.Sideways, lift, HeightOf(Math.Max(look.Tip, _bottom) + taken.Depth));
        Seen(
            new Cut
            {
                Motion = look.Motion,
                At = look.At,
                AngleRad = Math.Atan2(look.Ahead.Y, look.Ahead.X),
                ForceN = force,
                DepthMm = taken.Depth,
                ByDepth = !flutes || depth > 0.9 * taken.Depth,
                ChipMm = chip,
                Pattern = pattern,
                State = look.State,
            }
        );
    }

    private void Seen(Cut cut)
    {
        _seen = cut.Motion;
        Cuts.Add(cut);
    }

    /// <summary>
    /// Of the force over the contact, mm: on a shell its thickest face whatever the pass, on a block in thirds of it upwards, so
    /// that few patterns are worked out.
    /// </summary>
    private double HeightOf(double z)
    {
        double third = run.Design.RawThickness / 3;
        return run.Setup == Setup.Trim
            ? run.Job.Shell.ThicknessMax
            : Math.Ceiling((Math.Max(0, z) / third) - 1e-6) * third;
    }

    private double Top(Point2 p)
    {
        int cell = _looks.CellAt(p);
        if (cell < 0)
        {
            return double.MinValue;
        }
        float top = run.Grid.TopHeights.HeightAt(cell);
        return top >= _raw ? run.Grid.RawTopZ + _higher : top;
    }
}
