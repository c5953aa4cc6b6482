using System.Collections.Immutable;
using CsCheck;
using FixtureGen.Model;

namespace FixtureGen.Tests.Program;

/// <summary>Random but lawful plans: every operation starts with a rapid at the clearance height and ends there.</summary>
internal static class PlanMaker
{
    public const double Clearance = 25;

    private static readonly Gen<Point3> Place = Gen.Select(
        Gen.Double[-40, 250],
        Gen.Double[-40, 250],
        Gen.Double[-5, 24],
        (x, y, z) => new Point3(x, y, z)
    );

    private static readonly Gen<double> Feed = Gen.Double[60, 5000];

    private enum Shape
    {
        Line,
        Rapid,
        Arc,
        Full,
        Drill,
    }

    private static readonly Gen<(Shape, Point3, double, double, bool)> Step = Gen.Select(
        Gen.Int[0, 4].Select(i => (Shape)i),
        Place,
        Gen.Double[0.02, 120],
        Feed,
        Gen.Bool
    );

    public static Gen<ProgramPlan> Plan { get; } =
        Gen.Select(Step.Array[1, 12], Step.Array[1, 12]).Select((a, b) => Of(Operation(a, 1), Operation(b, 2)));

    public static ProgramPlan Of(params ImmutableArray<Operation> operations) =>
        new(
            Setup.Top,
            1234,
            ["PS-1 R1 TOP", "dry-run in the air first"],
            60,
            [.. operations.Select(o => new ProgramStep(ProgramStepKind.Operation, o, ""))]
        );

    public static Operation Operation(int tool, params ImmutableArray<Move> moves) =>
        new()
        {
            Name = "cut",
            Kind = OperationKind.Clear,
            Tool = Mill(tool),
            SpindleRpm = 18000,
            FeedMmPerMin = 2000,
            StepDown = 2,
            StepOver = 2,
            LimitedBy = "",
            Features = [],
            BreaksPlateSeal = false,
            Moves = moves,
        };

    public static Tool Mill(int number) =>
        new()
        {
            Name = "mill",
            Number = number,
            Kind = ToolKind.EndMill,
            Diameter = 6,
            Flutes = 2,
            FluteLength = 20,
            ShankDiameter = 6,
            StickOut = 30,
            HolderDiameter = 25,
            TipAngleDeg = 180,
            TipDiameter = 0,
            Helix = HelixDirection.Up,
            HelixAngleDeg = 30,
            CentreCutting = true,
            MaxStepDown = 20,
            MaxRampDeg = 5,
            RunOut = 0.01,
            MaxRpm = 24000,
        };

    private static Operation Operation((Shape, Point3, double, double, bool)[] steps, int tool)
    {
        Point3 at = new(steps[0].Item2.X, steps[0].Item2.Y, Clearance);
        List<Move> moves = [new RapidMove(at)];
        foreach ((Shape shape, Point3 to, double size, double feed, bool flag) in steps)
        {
            Move move = Make(shape, at, to, size, feed, flag);
            moves.Add(move);
            at = move.To;
        }
        moves.Add(new RapidMove(at with { Z = Clearance }));
        return Operation(tool, [.. moves]);
    }

    private static Move Make(Shape shape, Point3 at, Point3 to, double size, double feed, bool flag)
    {
        switch (shape)
        {
            case Shape.Line:
                return new LineMove(to, feed);
            case Shape.Rapid:
                return new RapidMove(flag ? to with { Z = at.Z } : at with { Z = to.Z });
            case Shape.Full:
                return new ArcMove(at with { Z = to.Z }, new Point2(at.X + size, at.Y), flag, feed);
            case Shape.Drill:
                double retract = Math.Max(at.Z, to.Z) > 20 ? 20 : Math.Max(at.Z, to.Z);
                double back = flag ? retract : Math.Max(at.Z, retract);
                return new DrillMove(to with { Z = back }, retract, retract - 10, flag ? 3 : 0, flag ? 0 : 0.5, feed);
            default:
                double angle = to.X;
                double sweep = 0.01 + (Math.Abs(to.Y) % 6.2);
                Point2 centre = at.Xy + (size * new Point2(Math.Cos(angle), Math.Sin(angle)));
                double end = angle + Math.PI + (flag ? sweep : -sweep);
                Point2 p = centre + (size * new Point2(Math.Cos(end), Math.Sin(end)));
                return new ArcMove(Point3.From(p, to.Z), centre, flag, feed);
        }
    }
}
