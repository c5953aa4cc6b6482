namespace FixtureGen.Verify.Verdicts;

/// <summary>
/// The judge's own figures, mm and degrees, that no job may loosen. Common practice, no source, unless a line says otherwise.
/// </summary>
internal static class JudgeRules
{
    /// <summary>A rapid may end no nearer than this above material.</summary>
    public const double RapidGap = 0.5;

    /// <summary>A rapid back down the hole that the tool came from may end this near above its floor: pecks stop 0.25 mm short.</summary>
    public const double PeckGap = 0.2;

    /// <summary>Feeding sideways this far above the ground is no cut.</summary>
    public const double AirGap = 0.1;

    /// <summary>A step of a ramp may end this far off the slope of its neighbours, mm, and this share of its own height.</summary>
    public const double UnevenStep = 0.03;

    public const double UnevenShare = 0.1;

    /// <summary>Corners at both ends of one arc, degrees, beyond which no planned path goes.</summary>
    public const double KinkDeg = 40;

    /// <summary>A ramp at a bridge may end this far off the slope of any other, mm: round a corner it is cut short.</summary>
    public const double TabRampStep = 0.15;

    /// <summary>An end mill may go straight down this far into a block's material: rounding of the ground's height.</summary>
    public const double StraightDown = 0.15;

    /// <summary>Travel below this height above the stock is low.</summary>
    public const double LowTravel = 3;

    /// <summary>A height used once that lies so little below another, mm, looks like a slip in its digits.</summary>
    public const double HeightSlip = 2.5;

    /// <summary>A way home or to the changer may begin this far below the usual height, mm.</summary>
    public const double ClearOfWork = 10;

    /// <summary>How much narrower than the cutter a rapid's sweep is looked at, so that sliding up a finished wall is no crash.</summary>
    public const double RapidSlack = 0.03;

    /// <summary>How far past the cutter's radius the tip may leave the blank below its top: a lead-in's clearance.</summary>
    public const double BeyondBlank = 5;

    /// <summary>Excess of step-down that is rounding, not a deeper cut.</summary>
    public const double StepSlack = 0.02;

    /// <summary>Width, in cutter diameters, over which a cut deeper than the step-down is a finishing pass and not a slot.</summary>
    public const double FinishWidth = 0.2;

    /// <summary>How far a trim's last round goes on past where it began, in cutter diameters, at least (common practice, no source).</summary>
    public const double SeamShare = 0.2;

    /// <summary>Slack of a ramp's angle.</summary>
    public const double RampSlackDeg = 0.2;

    /// <summary>Heights rounded to a control's last decimal may add this much to a ramp's way down.</summary>
    public const double HeightRounding = 0.006;

    /// <summary>Sweeps of tiny arcs differ from the plan by this much of their radius, mm, once their words are rounded.</summary>
    public const double ArcRounding = 0.006;

    /// <summary>Material taken by a motion below this, mm3, is rounding at cell borders.</summary>
    public const double NoMaterial = 0.05;

    /// <summary>A chip below this share of the chart's least is rubbing.</summary>
    public const double SlowChip = 0.6;

    /// <summary>What is thicker than this, mm, is a chip all the same: sharp edges are rounded by some hundredths (common practice, no source).</summary>
    public const double StillAChip = 0.012;

    /// <summary>The shop's greatest surface speed may be passed by this much: speeds are written in round numbers.</summary>
    public const double FastSurface = 1.02;

    /// <summary>A feed may be this much over the chart's greatest: it is written in round numbers.</summary>
    public const double FastChip = 1.02;

    /// <summary>A cone is read in the chart at this depth, mm, or where it cuts deeper: above it, its width is next to nothing.</summary>
    public const double LeastCone = 0.1;

    /// <summary>A bolt's length that is said in tenths of a millimetre may be this far off, mm.</summary>
    public const double ScrewTenth = 0.1;

    /// <summary>A nest may be this much tighter than the least slack, mm: the chords of its walls.</summary>
    public const double NestRounding = 0.01;

    /// <summary>Chips are not taken to get thinner below this width in diameters: run-out counts more there.</summary>
    public const double ThinnestCut = 0.05;
}
