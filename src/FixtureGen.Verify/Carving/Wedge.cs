using FixtureGen.Model;
using FixtureGen.Verify.Shape;

namespace FixtureGen.Verify.Carving;

/// <summary>
/// The directions an arc sweeps, seen from its centre: where both half planes (left of the first ray, right of the last) hold,
/// or, when Wide (over half a turn), where either does. Full is a whole turn.
/// </summary>
internal readonly record struct Wedge(Point2 From, Point2 To, bool Wide, bool Full)
{
    public static Wedge Around(Piece arc)
    {
        (double sinA, double cosA) = Math.SinCos(arc.Sweep > 0 ? arc.A0 : arc.A0 + arc.Sweep);
        (double sinB, double cosB) = Math.SinCos(arc.Sweep > 0 ? arc.A0 + arc.Sweep : arc.A0);
        double turn = Math.Abs(arc.Sweep);
        return new Wedge(new Point2(cosA, sinA), new Point2(cosB, sinB), turn > Math.PI, turn > (2 * Math.PI) - 1e-9);
    }

    /// <summary>The x, at height h over the centre, that lie left of the first ray.</summary>
    public (double Lo, double Hi) FirstSide(double h) => Half(-From.Y, From.X * h);

    /// <summary>The x that lie right of the last ray.</summary>
    public (double Lo, double Hi) SecondSide(double h) => Half(To.Y, -To.X * h);

    /// <summary>Solutions of k x + c &gt;= 0.</summary>
    private static (double Lo, double Hi) Half(double k, double c)
    {
        const double Far = 1e12;
        if (Math.Abs(k) < 1e-15)
        {
            return c >= 0 ? (-Far, Far) : (Far, -Far);
        }
        double x = -c / k;
        return k > 0 ? (x, Far) : (-Far, x);
    }
}
