using System.Collections.Immutable;
using FixtureGen.Cutting;
using FixtureGen.Holding.Block;
using FixtureGen.Model;
using FixtureGen.Toolpaths;
using FixtureGen.Toolpaths.Moves;

namespace FixtureGen.Solve.Search;

/// <summary>
/// What a block's programs take at the least, minutes: a block that was planned without its magnets, net and label takes so much, and
/// another of the same blank almost; another blank as much longer or shorter as its face takes to skim, less a margin; none less than that
/// skim. What a finished block took besides, another takes too, less a margin.
/// </summary>
internal sealed class BlockBound
{
    private const double SameBlank = 0.95;

    private const double RestOfAnother = 0.7;

    private const double OtherBlank = 0.6;

    private (double Minutes, double Skim)? _rest;

    private readonly List<(string Blank, string Cord, double Minutes, double Skim)> _planned = [];

    public double Least(Job job)
    {
        double skim = Skim(job);
        double least = skim;
        foreach ((string blank, string cord, double minutes, double itsSkim) in _planned)
        {
            double bound =
                blank != job.Blank.Name ? OtherBlank * minutes * skim / itsSkim
                : cord != job.Gasket.Name ? SameBlank * minutes
                : minutes;
            least = Math.Max(least, bound);
        }
        return least + (_rest is { } rest ? RestOfAnother * rest.Minutes * Math.Min(1, skim / rest.Skim) : 0);
    }

    /// <summary>Takes note of what a finished block took.</summary>
    public void Learn(Job job, double minutes)
    {
        foreach ((string blank, string cord, double begun, double skim) in _planned)
        {
            if (blank == job.Blank.Name && cord == job.Gasket.Name)
            {
                double besides = Math.Max(0, minutes - begun);
                _rest = _rest is { } rest && rest.Minutes <= besides ? rest : (besides, skim);
            }
        }
    }

    /// <summary>Plans a block that has no magnets yet; failed where no tool cuts it.</summary>
    public Stage<double> Plan(Job job, FixtureDesign begun, Tolerances tolerances)
    {
        if (_planned.Any(p => p.Blank == job.Blank.Name))
        {
            return Stage.Answer(Least(job));
        }
        Job numbered = Choice.Numbered(job);
        Stage<ImmutableArray<ProgramPlan>> plans = OperationPlanner.Plan(
            begun,
            numbered,
            new BlockHolding(begun, numbered),
            tolerances
        );
        if (!plans.Ok)
        {
            return Stage.Failed<double>(plans.Findings);
        }
        double minutes = plans
            .Value.Where(p => p.Setup != Setup.Trim)
            .Sum(p => PlanMinutes.Measure(p, job.Plate.Machine));
        _planned.Add((job.Blank.Name, job.Gasket.Name, minutes, Skim(job)));
        return Stage.Answer(minutes);
    }

    /// <summary>The face skimmed by the quickest mill, minutes.</summary>
    private static double Skim(Job job)
    {
        double area = job.Blank.Width * job.Blank.Height;
        return job
            .Tools.Where(t => t.Kind is ToolKind.EndMill or ToolKind.FaceMill)
            .Select(t =>
            {
                double ae = Skimming.Width * t.Diameter;
                return area / ae / Feeds.For(t, job.BlockMaterial, job.Plate.Machine, ae, job.Rules.LeastSkim).Feed;
            })
            .DefaultIfEmpty(0)
            .Min();
    }
}
