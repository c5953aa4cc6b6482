using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Output.Reports;

/// <summary>Turns what the stages returned into the report; nothing is computed here but sums, and every number is rounded to what it can bear.</summary>
public static class ReportBuilder
{
    /// <summary>A report that is not ok and has findings only; revision 0.</summary>
    public static Report Refused(string job, IEnumerable<Finding> findings, string generator) =>
        new()
        {
            Job = job,
            Ok = false,
            Findings = Lines(findings),
            Part = null,
            Placement = null,
            Features = null,
            Forms = null,
            Holding = null,
            Programs = null,
            Verify = null,
            Generator = generator,
            Revision = 0,
            Inputs = null,
            Files = null,
            BlockHolding = null,
        };

    /// <summary>All that a run came to; what it did not reach is null.</summary>
    public static Report Describe(Request request, PipelineResult run)
    {
        Designed? d = run.Designed;
        VerifyResult? verdict = run.Verdict;
        return new()
        {
            Job = request.JobName,
            Ok = run.Ok,
            Findings = Lines(run.Findings),
            Part = d is null ? null : Part(d.Part),
            Placement = d is null ? null : Placement(d.Design.Placement),
            Features = d is null ? null : Features(d.Design),
            Forms = d is null ? null : Forms(d.Design),
            Holding = d is null ? null : Holding(d.Holding),
            Programs = verdict is null ? null : Programs(verdict, run.Programs),
            Verify = verdict is null ? null : Verify(verdict),
            Generator = request.Version,
            Revision = d?.Job.Revision ?? request.Registered.Revision,
            Inputs = null,
            Files = null,
            BlockHolding = null,
            Plate = d is null ? null : new PlateFacts(d.Job.Plate.Name, d.Job.Plate.Revision),
            FixtureId = d?.Job.FixtureId,
            Trim = d is null ? null : Trim(d.Job, d.Direction),
            Solve = d is null ? null : SolveFacts.From(d.Solve),
            MissingCutters = verdict is null
                ? null
                :
                [
                    .. run.MissingCutters.Select(m => new MissingCutterFacts(
                        Words.For(m.Kind),
                        R(m.DiameterMm),
                        Math.Round(m.MinutesSaved, 2)
                    )),
                ],
        };
    }

    /// <summary>The findings in their order.</summary>
    public static IReadOnlyList<FindingLine> Lines(IEnumerable<Finding> findings) =>
        [.. findings.Select(FindingLine.From)];

    /// <summary>A part in the drawing's axes.</summary>
    public static PartFacts Part(Part part)
    {
        Box2 b = Measure.Bounds(part.Outer);
        double area = Measure.Area(part.Outer) - part.Cutouts.Sum(c => Math.Abs(Measure.Area(c)));
        return new(
            R(area),
            R(Measure.Length(part.Outer)),
            [R(b.MinX), R(b.MinY), R(b.MaxX), R(b.MaxY)],
            part.Cutouts.Length
        );
    }

    /// <summary>Pose and blank.</summary>
    public static PlacementFacts Placement(Placement p) =>
        new(R(p.Pose.X), R(p.Pose.Y), R(p.Pose.AngleDeg), p.Blank.Name, p.Blank.Material, R(p.Blank.Width));

    /// <summary>Areas, cords and places of a design; lengths are summed here.</summary>
    public static FeatureFacts Features(FixtureDesign d) =>
        new()
        {
            SealedAreaMm2 = R(d.Zones.Sum(z => z.Reached.Sum(Measure.Area))),
            GasketLoops = [.. d.AllCords.Select(c => new LoopFacts(R(c.Length)))],
            CordLengthMm = R(d.AllCords.Sum(c => c.CutLength)),
            Magnets = [.. d.Magnets.Select(m => Place(m.At))],
            Bolts = Places(d, FeatureKind.BoltHole),
            Pins = [.. Places(d, FeatureKind.PinHole), .. Places(d, FeatureKind.PinSlot)],
            Ports = Places(d, FeatureKind.Port),
            Zones = d.Zones.Length,
            Label = d.Label,
            UnreachedAreaMm2 = Unreached(d) is > 0 and var mm2 ? R(mm2) : null,
        };

    /// <summary>What the forms in the seal bear, in the order of the part's forms.</summary>
    public static IReadOnlyList<FormFacts> Forms(FixtureDesign d) =>
        [
            .. d.Bearings.Select(b => new FormFacts(
                R(b.ProjectedMm2),
                R(b.HeightMm),
                R(b.ThicknessMm),
                Math.Round(b.BucklingMargin, 4),
                R(b.TopSagMm),
                R(b.StressMPa),
                d.Part.Forms[b.Form].Plugged ? "raised" : "none"
            )),
        ];

    private static double Unreached(FixtureDesign d) =>
        d.Zones.Where(z => z.Reached != z.Sealed).Sum(z => Measure.Area(z.Sealed) - Measure.Area(z.Reached));

    /// <summary>Forces and levels to four decimals, the four answers with their worst points.</summary>
    public static HoldingFacts Holding(HoldingResult h) =>
        new()
        {
            HeldBy = h.HoldBy == HoldBy.Magnets ? "magnets" : "vacuum",
            VacuumKPa = R(h.VacuumKPa),
            PumpKPa = R(h.PumpKPa),
            AtmosphereKPa = R(h.AtmosphereKPa),
            SealedForceN = R(h.SealedForceN),
            GasketForceN = R(h.GasketForceN),
            MagnetForceN = R(h.MagnetForceN),
            CuttingForceN = R(h.CuttingForceN),
            LiftMm = R(h.LiftMm),
            ImplantDistanceMm = R(h.ImplantDistanceMm),
            VacuumOnly = Answer(h.VacuumOnly),
            MagnetsOnly = Answer(h.MagnetsOnly),
            MagnetsStopping = Answer(h.MagnetsStopping),
            Both = Answer(h.Both),
            Stops =
            [
                .. h.Stops.Select(s => new StopFacts(
                    Words.For(s.Kind),
                    s.Name,
                    R(s.At.X),
                    R(s.At.Y),
                    R(s.ClearanceMm),
                    R(s.StrengthN)
                )),
            ],
            ShiftMm = R(h.ShiftMm),
            Dimples =
            [
                .. h.Dimples.Select(d => new DimpleFacts(
                    d.Feature,
                    R(d.SpanMm),
                    R(d.SagMm),
                    R(d.RoomMm),
                    R(d.StressMPa)
                )),
            ],
            JacketGrip = R(h.JacketGrip),
        };

    /// <summary>The trim cutter that the job has now, stated or chosen, and what the other directions would give.</summary>
    public static TrimFacts Trim(Job job, CutDirection d) =>
        new(
            job.TrimTool.Name,
            Words.For(d.Helix),
            d.Stated,
            d.Reason,
            [
                .. d.Trials.Select(t => new DirectionFacts(
                    Words.For(t.Helix),
                    t.Cutter,
                    R(t.AxialN),
                    Math.Round(t.VacuumOnly, 4),
                    Math.Round(t.MagnetsStopping, 4),
                    t.MeetsLimits
                )
                {
                    MagnetsOnly = t.MagnetsOnly is { } put ? Math.Round(put, 4) : null,
                }),
            ]
        );

    /// <summary>The judge's figures with the number that each program was written under; every judged setup must be among the texts.</summary>
    public static IReadOnlyList<ProgramFacts> Programs(VerifyResult v, ImmutableArray<ProgramText> texts) =>
        [
            .. v.Programs.Select(p => new ProgramFacts
            {
                File = p.FileName,
                Setup = Words.For(p.Setup),
                ProgramNumber = texts.First(t => t.Setup == p.Setup).ProgramNumber,
                Lines = p.Lines,
                Arcs = p.Arcs,
                Minutes = Math.Round(p.Minutes, 3),
                CutMm = Math.Round(p.CutMm, 2),
                RapidMm = Math.Round(p.RapidMm, 2),
                Tools = [.. p.Tools.Select(t => t.Name)],
            }),
        ];

    /// <summary>In the order of cutting; factors to three decimals.</summary>
    public static IReadOnlyList<BlockHoldFacts> BlockHolding(IEnumerable<BlockHold> holds) =>
        [.. holds.Select(h => new BlockHoldFacts(h.Operation, Math.Round(h.Factor, 3), Words.For(h.Mode), h.Bolted))];

    /// <summary>Gouges and left-over to four decimals, mm.</summary>
    public static VerifyFacts Verify(VerifyResult v) =>
        new(v.Ok, v.CellMm, R(v.MaxGougeDepthMm), R(v.MaxGougeSideMm), R(v.MaxLeftoverMm));

    private static AnswerFacts Answer(HoldAnswer a) =>
        new(R(a.Factor), Words.For(a.Mode), R(a.At.X), R(a.At.Y), a.Governs)
        {
            Nominal = R(a.Nominal),
            Stays = R(a.Stays),
            StaysMode = Words.For(a.StaysMode),
            Corner = a.Corner,
        };

    private static IReadOnlyList<PlaceFacts> Places(FixtureDesign d, FeatureKind kind) =>
        [.. d.Features.OfType<HoleFeature>().Where(f => f.Kind == kind).Select(f => Place(f.At))];

    private static PlaceFacts Place(Point2 p) => new(R(p.X), R(p.Y));

    /// <summary>Four decimals; minus zero becomes zero.</summary>
    private static double R(double v) => Math.Round(v, 4) + 0.0;
}
