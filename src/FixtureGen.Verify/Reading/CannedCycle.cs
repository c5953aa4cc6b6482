using FixtureGen.Model;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Reading;

/// <summary>
/// G81, G82, G83 (and G73 where the control declares it) in the XY plane, as NISTIR 6556 section 3.5.16 and 3.5.20 say.
/// Heights in mm: Clear is the R plane, Bottom the depth, Step the way from hole to hole under G91.
/// </summary>
internal sealed record CannedCycle(
    Point2 First,
    Point2 Step,
    double Clear,
    double Bottom,
    double Peck,
    bool FullRetract,
    bool ToOldHeight,
    int Repeats
)
{
    /// <summary>How far a peck stops above the old depth, mm; the reference kernel's 0.010 in.</summary>
    private const double PeckGap = 0.254;

    public static CannedCycle? From(Block block, Modes modes, Dialect dialect, Point3 at, FindingLog log)
    {
        double unit = modes.Unit;
        modes.CycleR = block.Value('R') * unit ?? modes.CycleR;
        modes.CycleZ = block.Value('Z') * unit ?? modes.CycleZ;
        modes.CycleQ = block.Value('Q') * unit ?? modes.CycleQ;
        modes.CycleP = block.Value('P') ?? modes.CycleP;
        bool ok = true;
        void Need(bool met, string code, Text message, Text remedy)
        {
            if (!met)
            {
                log.Error(code, block.Line, message, remedy, at.Xy);
                ok = false;
            }
        }
        bool pecks = modes.Motion is 830 or 730;
        Need(modes.CycleR is not null, "cycle-r-missing", "a drilling cycle without R", "Write the R height");
        Need(modes.CycleZ is not null, "cycle-z-missing", "a drilling cycle without Z", "Write the depth");
        Need(!pecks || modes.CycleQ > 0, "cycle-q", "a peck cycle without a positive Q", "Write the peck");
        Need(modes.Motion != 820 || modes.CycleP is not null, "cycle-p", "G82 without P", "Write the dwell");
        Need(block.Value('L') is null or >= 1, "cycle-l", "a cycle repeated zero times", "Write L1 or more");
        if (!ok)
        {
            return null;
        }
        double clear = modes.CycleR!.Value + (modes.Incremental ? at.Z : 0);
        double bottom = modes.CycleZ!.Value + (modes.Incremental ? clear : 0);
        Need(bottom <= clear, "cycle-r-low", $"R {clear:0.###} lies below Z {bottom:0.###}", "Raise R");
        double x = (block.Value('X') ?? 0) * unit;
        double y = (block.Value('Y') ?? 0) * unit;
        Point2 first = modes.Incremental
            ? new Point2(at.X + x, at.Y + y)
            : new Point2(block.Has('X') ? x : at.X, block.Has('Y') ? y : at.Y);
        return ok
            ? new CannedCycle(
                first,
                modes.Incremental ? new Point2(x, y) : default,
                clear,
                bottom,
                pecks ? modes.CycleQ!.Value : 0,
                modes.Motion == 830,
                modes.CycleReturn == 980,
                (int)Math.Round(block.Value('L') ?? 1)
            )
            : null;
    }

    public IEnumerable<(MotionKind Kind, Point3 To)> Motions(Point3 start)
    {
        double old = start.Z;
        double back = ToOldHeight ? Math.Max(old, Clear) : Clear;
        if (old < Clear)
        {
            yield return (MotionKind.Rapid, start with { Z = Clear });
        }
        double z = Math.Max(old, Clear);
        for (int i = 0; i < Repeats; i++)
        {
            Point2 hole = First + (Step * i);
            yield return (MotionKind.Rapid, Point3.From(hole, z));
            if (z > Clear)
            {
                yield return (MotionKind.Rapid, Point3.From(hole, Clear));
            }
            foreach ((MotionKind kind, double height) in Strokes())
            {
                yield return (kind, Point3.From(hole, height));
            }
            yield return (MotionKind.Rapid, Point3.From(hole, back));
            z = back;
        }
    }

    private IEnumerable<(MotionKind Kind, double Z)> Strokes()
    {
        double depth = Clear;
        while (Peck > 0 && depth - Peck > Bottom + 1e-9)
        {
            depth -= Peck;
            yield return (MotionKind.Line, depth);
            if (FullRetract)
            {
                yield return (MotionKind.Rapid, Clear);
            }
            yield return (MotionKind.Rapid, Math.Min(Clear, depth + PeckGap));
        }
        yield return (MotionKind.Line, Bottom);
    }
}
