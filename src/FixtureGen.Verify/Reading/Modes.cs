namespace FixtureGen.Verify.Reading;

/// <summary>
/// The modal words in force. Motion, Cycle and the others hold G codes in tenths; 0 for Plane, Units and Distance says that
/// the program has not said which, so a motion is refused. Power-up motion mode is none.
/// </summary>
internal sealed class Modes
{
    /// <summary>G code in tenths, or -1 for none (G80, or nothing said).</summary>
    public int Motion { get; set; } = -1;

    public int Plane { get; set; }

    public int Units { get; set; }

    public int Distance { get; set; }

    /// <summary>G98 (old height) or G99 (R height), tenths.</summary>
    public int CycleReturn { get; set; } = 980;

    public int WorkOffset { get; set; }

    public int SelectedTool { get; set; }

    public double? CycleR { get; set; }

    public double? CycleZ { get; set; }

    public double? CycleQ { get; set; }

    public double? CycleP { get; set; }

    /// <summary>All G codes (tenths) said so far.</summary>
    public HashSet<int> Said { get; } = [];

    public bool Incremental => Distance == 910;

    public double Unit => Units == 200 ? Model.Units.MmPerInch : 1;

    public bool InCycle => Motion is (>= 810 and <= 890) or 730;

    public void LeaveCycle() => CycleR = CycleZ = CycleQ = CycleP = null;
}
