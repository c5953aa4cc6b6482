using FixtureGen.Holding.Sliding;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Holding;

/// <summary>
/// Limit analysis: every mechanism is above the collapse load and every admissible friction field in equilibrium with the
/// load is below it (Drucker, Prager and Greenberg 1952). Both are built here on a grid of their own, apart from the solver.
/// </summary>
public sealed class BoundTheoremsTest
{
    private const double Width = 152.4;
    private const double Height = 101.6;
    private const double Pressed = 1048.7;
    private const double Friction = 0.2;
    private static readonly Point2 Corner = new(76.2, 50.8);

    [Theory]
    [InlineData(0)]
    [InlineData(35)]
    [InlineData(90)]
    [InlineData(123.7)]
    [InlineData(150)]
    public void Both_bounds_bracket_the_answer(double directionDeg)
    {
        double angle = directionDeg * Math.PI / 180;
        Point2 force = new(36 * Math.Cos(angle), 36 * Math.Sin(angle));
        var pieces = ContactQuadrature.OverArea(
            [Region.From(Outlines.Rectangle(-Width / 2, -Height / 2, Width, Height))],
            150
        );
        HeldPart held = new(new PressureMeasure(pieces), Friction, Pressed, default, [], []);
        LimitAnswer answer = LimitState.Solve(held, new CutLoad(Corner, force, 0, 0), default);
        Point2 centre = new Point2(-answer.Twist.Y, answer.Twist.X) * (held.Nodes.Scale / answer.Twist.Turn);

        double upper = Upper(centre + new Point2(0.7, -0.4), force);
        double lower = Lower(centre, Math.Sign(answer.Twist.Turn), force);

        Assert.InRange(answer.Factor, lower * (1 - 5e-4), upper * (1 + 5e-4));
        Assert.InRange(upper / lower, 1, 1.01);
    }

    private static double Upper(Point2 centre, Point2 force)
    {
        double power = 0;
        foreach ((Point2 at, double normal) in Grid())
        {
            power += Friction * normal * at.DistanceTo(centre);
        }
        return power / Math.Abs((Corner - centre).Cross(force));
    }

    /// <summary>A convex mix of three sliding fields whose resultant is the load times the bound.</summary>
    private static double Lower(Point2 centre, double turn, Point2 force)
    {
        double step = 1 + (0.05 * centre.Length);
        (double X, double Y, double M)[] fields =
        [
            Field(centre + new Point2(step, 0), turn),
            Field(centre + new Point2(-step, step), turn),
            Field(centre + new Point2(-step, -step), turn),
        ];
        double moment = Corner.Cross(force);
        double[,] rows = new double[4, 5];
        for (int k = 0; k < 3; k++)
        {
            (rows[0, k], rows[1, k], rows[2, k], rows[3, k]) = (fields[k].X, fields[k].Y, fields[k].M, 1);
        }
        (rows[0, 3], rows[1, 3], rows[2, 3]) = (-force.X, -force.Y, -moment);
        rows[3, 4] = 1;
        double[] solved = Gauss(rows);
        Assert.All(solved[..3], share => Assert.InRange(share, 0, 1));
        return solved[3];
    }

    private static (double X, double Y, double M) Field(Point2 centre, double turn)
    {
        (double x, double y, double m) = (0, 0, 0);
        foreach ((Point2 at, double normal) in Grid())
        {
            Point2 arm = at - centre;
            Point2 pull = arm.Left * (turn * Friction * normal / arm.Length);
            (x, y, m) = (x + pull.X, y + pull.Y, m + at.Cross(pull));
        }
        return (x, y, m);
    }

    private static IEnumerable<(Point2 At, double Normal)> Grid()
    {
        const int Columns = 151;
        const int Rows = 101;
        for (int i = 0; i < Columns * Rows; i++)
        {
            double x = (((i % Columns) + 0.5) / Columns) - 0.5;
            double y = (((i / Columns) + 0.5) / Rows) - 0.5;
            yield return (new Point2(x * Width, y * Height), Pressed / (Columns * Rows));
        }
    }

    private static double[] Gauss(double[,] a)
    {
        int n = a.GetLength(0);
        for (int k = 0; k < n; k++)
        {
            int best = Enumerable.Range(k, n - k).MaxBy(r => Math.Abs(a[r, k]));
            for (int c = 0; c <= n; c++)
            {
                (a[k, c], a[best, c]) = (a[best, c], a[k, c]);
            }
            for (int r = 0; r < n; r++)
            {
                double share = r == k ? 0 : a[r, k] / a[k, k];
                for (int c = k; c <= n; c++)
                {
                    a[r, c] -= share * a[k, c];
                }
            }
        }
        return [.. Enumerable.Range(0, n).Select(k => a[k, n] / a[k, k])];
    }
}
