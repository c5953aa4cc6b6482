using FixtureGen.Model;

namespace FixtureGen.Holding.Magnets;

/// <summary>
/// A job's magnet pair, one disc in the block and one in the jacket on the shell: the gap of everything between them, the pull
/// over the lift of the shell, and what neighbours do to each other. Forces N, times <see cref="MagnetPair.Derating"/>; lengths
/// mm.
/// </summary>
public sealed class PairOnBlock
{
    /// <summary>A warm shop and warm chips, C; common practice, no source.</summary>
    public const double WorkTemperatureC = 40;

    /// <summary>A seated jacket may be dragged by its neighbour with this share of its own pull; common practice, no source.</summary>
    private const double DragShare = 0.2;

    /// <summary>A jacket may lose this share of its pull to one neighbour; common practice, no source.</summary>
    private const double LossShare = 0.1;

    private const double FingerRoom = 2;
    private const int TableSize = 24;
    private const double LeastFar = 160;

    /// <summary>No two magnets of a block stand farther apart: the diagonal of the widest blank a shop may name, mm.</summary>
    private const double AcrossAnyBlock = 1415;

    private readonly Disc _disc;
    private readonly double _own;
    private readonly double _logSpacing;
    private readonly double _step;
    private readonly double _far;
    private readonly double[] _neighbour = new double[TableSize];

    /// <summary>
    /// Works the pair out once, with a table of what neighbours do: some hundred force integrals. The weakest disc of the
    /// grade at <see cref="WorkTemperatureC"/>.
    /// </summary>
    public PairOnBlock(Job job)
    {
        MagnetSpec spec = job.Magnet;
        _disc = Disc.Weakest(spec, WorkTemperatureC);
        Gap =
            job.Shell.ThicknessMax
            + job.Rules.MagnetRecess
            + job.Rules.MagnetGlue
            + (2 * spec.Plating)
            + spec.JacketFloor;
        double thinnest = Gap - job.Shell.ThicknessMax + job.Shell.ThicknessMin;
        Slip = StoppingLoad.AllowedSlip(_disc, thinnest);
        Disc nominal = Disc.Nominal(spec, WorkTemperatureC);
        double nominalGap = Gap - job.Shell.ThicknessMax + job.Shell.Thickness;
        NominalShare = MagnetPair.CoaxialN(nominal, nominal, nominalGap) / MagnetPair.CoaxialN(_disc, _disc, Gap);
        _own = PullN(0);
        Spacing = LeastSpacing(spec);
        _logSpacing = Math.Log(Spacing);
        _far = Math.Max(LeastFar, 2 * Spacing);
        _step = (Math.Log(_far) - _logSpacing) / (TableSize - 1);
        for (int i = 0; i < TableSize; i++)
        {
            double apart = Apart(i);
            _neighbour[i] = Aside(apart).Pull * Math.Pow(apart, 5);
        }
    }

    /// <summary>Between the discs with the shell down: shell at its thickest, recess, glue, both platings and jacket floor, mm.</summary>
    public double Gap { get; }

    /// <summary>
    /// How far a jacket may be pushed aside before its pull falls by <see cref="StoppingLoad.PullLost"/>, mm, over the thinnest shell,
    /// where it falls soonest.
    /// </summary>
    public double Slip { get; }

    /// <summary>Pull of a pair of the nominal grade and size over a shell of nominal thickness, over that of the weakest; 1 and up.</summary>
    public double NominalShare { get; }

    /// <summary>Share of its pull that a pair keeps, least, when its jacket is pushed aside by a distance, mm.</summary>
    public double KeptAt(double aside) =>
        aside <= Slip
            ? 1 - StoppingLoad.PullLost
            : Math.Clamp(
                MagnetPair.OffsetN(_disc, _disc, Gap, aside).Pull / MagnetPair.OffsetN(_disc, _disc, Gap, 0).Pull,
                0,
                1 - StoppingLoad.PullLost
            );

    /// <summary>Least distance between neighbours' middles, mm: jackets a finger apart, no neighbour dragged or much weakened.</summary>
    public double Spacing { get; }

    /// <summary>Pull of one pair alone with the shell lifted off the block by a height (mm, 0 or more), N.</summary>
    public double PullN(double lift) => MagnetPair.Derating * MagnetPair.CoaxialN(_disc, _disc, Gap + lift);

    /// <summary>
    /// What a neighbour's disc in the block adds to a jacket's pull, N, negative where it takes away (it mostly does), by the
    /// distance of their middles in mm: from a table from <see cref="Spacing"/> up, 0 from 160 mm and twice that spacing on.
    /// </summary>
    public double NeighbourN(double apart)
    {
        if (apart >= _far)
        {
            return 0;
        }
        double place = Math.Max(0, (Math.Log(apart) - _logSpacing) / _step);
        int i = Math.Min((int)place, TableSize - 2);
        double t = place - i;
        double square = apart * apart;
        return ((_neighbour[i] * (1 - t)) + (_neighbour[i + 1] * t)) / (square * square * apart);
    }

    /// <summary>Each magnet's pull with the shell down, neighbours counted, N, never below 0; places in mm.</summary>
    public double[] SharesN(IReadOnlyList<Point2> at)
    {
        double[] shares = new double[at.Count];
        Array.Fill(shares, _own);
        for (int i = 0; i < at.Count; i++)
        {
            for (int j = 0; j < i; j++)
            {
                double more = NeighbourN(at[i].DistanceTo(at[j]));
                shares[i] += more;
                shares[j] += more;
            }
        }
        for (int i = 0; i < shares.Length; i++)
        {
            shares[i] = Math.Max(0, shares[i]);
        }
        return shares;
    }

    private double Apart(int i) => Spacing * Math.Exp(i * _step);

    private (double Pull, double Sideways) Aside(double apart)
    {
        (double pull, double sideways) = MagnetPair.OffsetN(_disc, _disc, Gap, apart);
        return (MagnetPair.Derating * pull, sideways);
    }

    /// <summary>
    /// Jackets stand a finger apart, and a neighbour neither drags a seated jacket aside (its jacket pushes, its pocket
    /// pulls) nor takes much of its pull. A pair that would need more than any block has comes out as wide as that.
    /// </summary>
    private double LeastSpacing(MagnetSpec spec)
    {
        double spacing = spec.JacketDiameter + FingerRoom;
        while (!StandsAlone(spacing) && spacing < AcrossAnyBlock)
        {
            spacing += Math.Max(0.5, spacing / 160);
        }
        return spacing;
    }

    private bool StandsAlone(double spacing)
    {
        double push = Math.Abs(MagnetPair.OffsetN(_disc, _disc, -_disc.Thickness, spacing).Sideways);
        (double loss, double pull) = Aside(spacing);
        return Math.Max(push, Math.Abs(pull)) <= DragShare * _own && -loss <= LossShare * _own;
    }
}
