using FixtureGen.Geometry;
using FixtureGen.Holding.Seal;
using FixtureGen.Model;

namespace FixtureGen.Solve.Search;

/// <summary>
/// The most that any fixture with one cord can pull a shell down with, N, as friction against sliding feels it: at first the vacuum
/// on all of the outline that lies a land and a groove inside its edge; once a seal was laid, a tenth more than that seal gave, for
/// where a part lies on a blank and what trims it move a seal but little.
/// </summary>
internal sealed class CordBound
{
    /// <summary>By so much another place of the same seal may hold more than the one that was laid.</summary>
    private const double Elsewhere = 1.1;

    private readonly double _vacuum;
    private double? _laid;

    public CordBound(Part part, Job job, Tolerances tolerances)
    {
        double inside = job.Rules.Land + job.Gasket.GrooveWidth;
        Region outline = Region.From(Contours.Ccw(part.Outer));
        double area = Measure.Area(new Kernel(tolerances).Offset([outline], -inside));
        _vacuum = VacuumLevel.From(job.Vacuum).Least * area / 1000;
    }

    /// <summary>Newtons, 0 and up.</summary>
    public double MostPullN => _laid is { } laid ? Math.Min(_vacuum, Elsewhere * laid) : _vacuum;

    /// <summary>Takes note of a seal that was laid.</summary>
    /// <param name="pullN">What it holds, as friction feels it, N.</param>
    /// <param name="seats">False where the vacuum cannot press the shell onto the cord at all.</param>
    public void Learn(double pullN, bool seats)
    {
        if (pullN > 0 || !seats)
        {
            _laid = Math.Max(_laid ?? 0, pullN);
        }
    }
}
