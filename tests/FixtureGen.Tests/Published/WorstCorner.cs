using FixtureGen.Geometry;
using FixtureGen.Holding.Sliding;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Published;

/// <summary>
/// Worst case against uncertainty (JCGM 100:2008, 5.1.2; clause numbers checked, the example worked by hand): h = mu (p A - c) / F with
/// mu 0.15 to 0.25, p 60.955 to 67.728 kPa, A 153.3 to 156.4 cm2, c 56 to 100 N, F 30 to 42 N. Each input stands once and goes one way,
/// so the least of the 32 corners is the guarantee: 2.9801, the greatest 8.3605, the middle 5.1018.
/// </summary>
public sealed class WorstCorner
{
    private static double Hold(double mu, double p, double areaCm2, double c, double f)
    {
        Region area = Region.From(Contours.Rectangle(new Box2(-60, -60, 60, 60)));
        PressureMeasure contact = new(ContactQuadrature.OverArea([area], 100));
        HeldPart held = new(contact, mu, (p * areaCm2 / 10) - c, default, [], ConvexHull.Around([area.Outer]));
        return LimitState.Solve(held, new CutLoad(contact.Middle, new Point2(f, 0), 0, 0), default).Factor;
    }

    [Fact]
    public void The_least_of_all_corners_is_that_of_every_input_at_its_bad_end()
    {
        (double Low, double High)[] ranges = [(0.15, 0.25), (60.955, 67.728), (153.3, 156.4), (56, 100), (30, 42)];
        double[] corners =
        [
            .. Enumerable
                .Range(0, 32)
                .Select(k =>
                {
                    double[] x = [.. ranges.Select((r, i) => ((k >> i) & 1) == 0 ? r.Low : r.High)];
                    return Hold(x[0], x[1], x[2], x[3], x[4]);
                }),
        ];
        Assert.Equal(2.9801, corners.Min(), 1e-3);
        Assert.Equal(8.3605, corners.Max(), 3e-3);
        Assert.Equal(corners.Min(), Hold(0.15, 60.955, 153.3, 100, 42), 12);
        Assert.Equal(5.1018, Hold(0.2, 64.3415, 154.85, 78, 36), 2e-3);
    }
}
