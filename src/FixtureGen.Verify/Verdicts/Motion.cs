using FixtureGen.Model;

namespace FixtureGen.Verify.Verdicts;

/// <summary>How the tool goes from one point to the next.</summary>
public enum MotionKind
{
    /// <summary>G0, a way home, or a drilling cycle's way back; taken as straight.</summary>
    Rapid,

    /// <summary>G1, or a drilling cycle's way down.</summary>
    Line,

    /// <summary>G3: counter-clockwise seen from +Z, a helix where Z changes.</summary>
    ArcCcw,

    /// <summary>G2: clockwise seen from +Z, a helix where Z changes.</summary>
    ArcCw,
}

/// <summary>One motion of the tool's tip as the judge read it, mm, plate frame (for the underside the underside frame).</summary>
/// <param name="Line">Program line, 1-based; a drilling cycle makes several motions of one.</param>
/// <param name="Centre">Of an arc; default for the others.</param>
/// <param name="FeedMmPerMin">0 for a rapid.</param>
/// <param name="Tool">Its number; 0 where none is known to be in the spindle.</param>
public readonly record struct Motion(
    int Line,
    MotionKind Kind,
    Point3 From,
    Point3 To,
    Point2 Centre,
    double FeedMmPerMin,
    int Tool
);
