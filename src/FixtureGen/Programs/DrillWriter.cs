using FixtureGen.Model;

namespace FixtureGen.Programs;

/// <summary>
/// Holes, by canned cycle (G81, G82, G83; G73 where the control has it) or long-hand with the same motion
/// (RS274/NGC, NISTIR 6556 3.5.16).
/// </summary>
internal static class DrillWriter
{
    /// <summary>How far a peck's return stops above the depth it left, mm (0.010 in, as the NIST reference interpreter).</summary>
    public const double BackOff = 0.254;

    /// <summary>Writes one hole; last says that no other hole follows, so that a canned cycle is cancelled.</summary>
    public static void Write(BlockWriter blocks, Control control, DrillMove hole, bool last)
    {
        bool both = hole.Peck > 0 && hole.DwellSeconds > 0;
        if (control.CannedCycles && !both)
        {
            Canned(blocks, control, hole, last);
        }
        else
        {
            LongHand(blocks, control, hole);
        }
    }

    private static void Canned(BlockWriter blocks, Control control, DrillMove hole, bool last)
    {
        WordFormat f = blocks.Format;
        long before = blocks.Z!.Value;
        long retract = f.Ticks(hole.RetractZ);
        long end = f.Ticks(hole.To.Z);
        bool backToBefore = end == before && before > retract;
        string code =
            hole.Peck > 0 ? (control.PeckHighSpeed ? "G73" : "G83")
            : hole.DwellSeconds > 0 ? "G82"
            : "G81";
        string rest = $"Z{f.Length(hole.BottomZ)} R{f.Length(retract)}";
        rest += hole.Peck > 0 ? $" Q{f.Length(hole.Peck)}" : "";
        rest += code == "G82" ? $" P{f.Dwell(hole.DwellSeconds)}" : "";
        long after = backToBefore ? before : retract;
        string codes = (backToBefore ? "G98 " : "G99 ") + code;
        blocks.Cycle(codes, f.Ticks(hole.To.X), f.Ticks(hole.To.Y), rest, after, hole.FeedMmPerMin);
        if (last || end != after)
        {
            blocks.Words("G80");
            blocks.Straight("G0", null, null, end, null);
        }
    }

    private static void LongHand(BlockWriter blocks, Control control, DrillMove hole)
    {
        WordFormat f = blocks.Format;
        if (blocks.Z < f.Ticks(hole.RetractZ))
        {
            blocks.Straight("G0", null, null, f.Ticks(hole.RetractZ), null);
        }
        blocks.Straight("G0", f.Ticks(hole.To.X), f.Ticks(hole.To.Y), null, null);
        blocks.Straight("G0", null, null, f.Ticks(hole.RetractZ), null);
        double step = hole.Peck > 0 ? hole.Peck : double.MaxValue;
        double z = hole.RetractZ;
        while (z > hole.BottomZ + 1e-9)
        {
            z = Math.Max(z - step, hole.BottomZ);
            blocks.Straight("G1", null, null, f.Ticks(z), hole.FeedMmPerMin);
            if (z > hole.BottomZ + 1e-9)
            {
                if (!control.PeckHighSpeed)
                {
                    blocks.Straight("G0", null, null, f.Ticks(hole.RetractZ), null);
                }
                blocks.Straight("G0", null, null, f.Ticks(Math.Min(hole.RetractZ, z + BackOff)), null);
            }
        }
        if (hole.DwellSeconds > 0)
        {
            blocks.Words($"G4 {control.DwellWord}{f.Dwell(hole.DwellSeconds)}");
        }
        blocks.Straight("G0", null, null, f.Ticks(hole.To.Z), null);
    }
}
